/** R14: a grip that is right only without the capo, or that lies behind it. */
import { type LaneId, laneIds } from "@halflap/board/board";
import { pretty } from "@halflap/theory/display";
import { nameInKey } from "@halflap/theory/key";
import { pitchClass } from "@halflap/theory/units";
import { chordSpelled, foreignClasses } from "../foreign.ts";
import { forgetsCapo } from "../forgotten-capo.ts";
import { type Hit, notesOf } from "../hit.ts";
import type { Segment } from "../segments.ts";
import { soundingChord, type Tune } from "../tune.ts";
import { listed, noteWord, sentence } from "../words.ts";

/** Each lane for itself; both troubles are a stop. */
export function capoMismatch(segment: Segment, tune: Tune): readonly Hit[] {
  return laneIds.flatMap((lane) => forgotten(segment, tune, lane) ?? behind(segment, tune, lane));
}

function forgotten(segment: Segment, tune: Tune, lane: LaneId): readonly Hit[] | undefined {
  const chord = soundingChord(segment);
  const pitches = segment[lane];
  if (chord === undefined || pitches === undefined || !forgetsCapo(segment, tune, lane)) {
    return undefined;
  }
  const { key, limits, players, setups } = tune;
  const foreign = foreignClasses(pitches, chord);
  const spelled = chordSpelled(pitches, (root) => nameInKey(root, key));
  const heard =
    spelled === undefined
      ? listed([...new Set(pitches.map(pitchClass))].map((value) => noteWord(value, chord, key)))
      : pretty(spelled);
  const grip = `${sentence(players[lane])}'s grip`;
  const lifted = `with the capo on ${setups[lane].capo} it sounds ${heard}`;
  return [
    {
      rule: "R14",
      severity: "stop",
      lanes: [lane],
      segments: [segment],
      notes: notesOf(segment, lane),
      measured: foreign.length,
      threshold: limits.foreign,
      words: `${grip} is ${pretty(chord.symbol)} only as a shape: ${lifted}.`,
    },
  ];
}

/** Frets between nut and capo, where frets are counted from the nut: nothing sounds there. */
function behind(segment: Segment, tune: Tune, lane: LaneId): readonly Hit[] {
  const { capo, fretsFrom } = tune.setups[lane];
  const grip = segment.grips[lane];
  if (fretsFrom !== "nut" || grip === undefined || segment.rests[lane]) return [];
  const frets = grip.frets.filter((fret) => fret !== undefined && fret > 0 && fret < capo);
  if (frets.length === 0) return [];
  const numbers = [...new Set(frets)].sort((a, b) => (a ?? 0) - (b ?? 0)).map(String);
  const named = numbers.length > 1 ? `frets ${listed(numbers)} lie` : `fret ${numbers[0]} lies`;
  return [
    {
      rule: "R14",
      severity: "stop",
      lanes: [lane],
      segments: [segment],
      notes: notesOf(segment, lane),
      measured: frets.length,
      threshold: 1,
      unit: "strings",
      words: `${sentence(tune.players[lane])}'s ${named} behind the capo on ${capo}.`,
    },
  ];
}
