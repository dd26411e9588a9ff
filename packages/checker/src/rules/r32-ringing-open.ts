/** R32: an open string rings on into a chord that does not want it. */
import { type LaneId, laneIds } from "@halflap/board/board";
import type { SoundingChord } from "@halflap/theory/chord";
import { pretty } from "@halflap/theory/display";
import type { GripNote } from "@halflap/theory/grip";
import { isOpen, type Setup } from "@halflap/theory/tuning";
import { pitchClass } from "@halflap/theory/units";
import { type BarRule, barByBar } from "../bar-by-bar.ts";
import { type HandMove, movesFrom, placesOf } from "../hand-moves.ts";
import type { Hit } from "../hit.ts";
import type { Segment } from "../segments.ts";
import { rubDistance } from "../thresholds.ts";
import { soundingChord, type Tune } from "../tune.ts";
import { listed, noteWord, sentence } from "../words.ts";

const inBar: BarRule = (bar, ahead, tune) =>
  laneIds.flatMap((lane) => {
    const hits = movesFrom(bar, ahead, lane, tune.setups).flatMap(
      (move) => ringing(move, placesOf(move, bar, ahead), lane, tune) ?? [],
    );
    const byStart = new Map<Segment | undefined, Hit>();
    for (const hit of hits) {
      const known = byStart.get(hit.segments[0]);
      if (known === undefined || known.measured < hit.measured) byStart.set(hit.segments[0], hit);
    }
    return [...byStart.values()];
  });

/** One hit for each slot and lane whose open strings ring on where they do not belong. */
export const ringingOpen = barByBar(inBar);

function ringing(
  move: HandMove,
  places: ReturnType<typeof placesOf>,
  lane: LaneId,
  tune: Tune,
): Hit | undefined {
  const { from, to } = move;
  if (to.kind !== "grip" || from.slot === to.slot || from.isCut || from.palmMuted) return undefined;
  if (from.kind === "line" && !from.letRing) return undefined;
  const [old, next] = [places.from?.segment, places.to?.segment];
  const chord = next && soundingChord(next);
  if (old === undefined || next === undefined || chord === undefined) return undefined;
  const strings = ringingStrings(move, tune.setups[lane]).filter((note) =>
    isUnwanted(note, next, chord),
  );
  if (strings.length === 0) return undefined;
  const words = strings.map(({ pitch }) =>
    noteWord(pitchClass(pitch), soundingChord(old), tune.key),
  );
  const names = listed([...new Set(words)]);
  const rings = strings.length === 1 ? "rings" : "ring";
  const them = strings.length === 1 ? "it" : "them";
  const way = from.letRing ? `stop ${them} there all the same` : `mute ${them}`;
  return {
    rule: "R32",
    severity: from.letRing ? "fix" : "look",
    lanes: [lane],
    segments: places.to?.isWithin ? [old, next] : [old],
    notes: strings.map(({ pitch }) => ({ lane, slot: old.slot.id, pitch })),
    measured: strings.length,
    threshold: 1,
    words: `${sentence(tune.players[lane])}'s open ${names} ${rings} on into \
${pretty(chord.symbol)}: ${way}, or fret ${them} elsewhere.`,
  };
}

/**
 * The open strings that go on: what the next grip stops or strikes again does not, nor what lies
 * silent between its sounding strings, where a finger mutes it.
 */
function ringingStrings({ from, to }: HandMove, setup: Setup): readonly GripNote[] {
  const struck = to.notes.map(({ string }) => string);
  const [highest, lowest] = [Math.max(...struck), Math.min(...struck)];
  return from.notes.filter(
    ({ string, fret }) => isOpen(setup, fret) && (string > highest || string < lowest),
  );
}

/** Outside the chord and its colours, or a colour that rubs against what sounds. */
function isUnwanted({ pitch }: GripNote, next: Segment, chord: SoundingChord): boolean {
  const is = ({ pitchClass: tone }: { readonly pitchClass: number }) => tone === pitchClass(pitch);
  if (chord.tones.some(is) || chord.bassClass === pitchClass(pitch)) return false;
  if (!chord.tensions.some(is)) return true;
  return [...(next.upper ?? []), ...(next.lower ?? [])].some((other) => {
    const distance = Math.abs(other - pitch);
    return distance === rubDistance.semitone || distance === rubDistance.minorNinth;
  });
}
