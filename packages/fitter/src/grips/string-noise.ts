/** What strings do between two grips by themselves: wound ones squeak, open ones ring on. */
import type { SoundingChord } from "@halflap/theory/chord";
import { isOpen, type Setup } from "@halflap/theory/tuning";
import { pitchClass } from "@halflap/theory/units";
import type { HeldGrip } from "./held-grip.ts";
import type { WayTable } from "./way-table.ts";

/** As R31 has it: the third string is plain in most electric sets. */
const lowestPlain = 3;

/** Whether the hand, where it travels, drags a finger along a wound string: R31. */
export function squeaking(table: WayTable, fretsMin: number): (place: number) => boolean {
  const { from, to, columns } = table;
  const wound = (list: typeof from) => list.grips.map((held) => woundFrets(held, list.setup));
  const [left, right] = [wound(from), wound(to)];
  return (place) => {
    if (table.travels[place] === 0) return false;
    const [one, other] = [left[Math.floor(place / columns)], right[place % columns]];
    const way = Math.abs(
      lowestOf(from, Math.floor(place / columns)) - lowestOf(to, place % columns),
    );
    if (one === undefined || other === undefined || way < fretsMin) return false;
    return one.some((fret, string) => {
      const target = other[string];
      return fret !== undefined && target !== undefined && Math.abs(fret - target) >= fretsMin;
    });
  };
}

/**
 * Whether an open string that the next chord does not name rings on beside the next grip: R32, with
 * every colour taken as one that rubs. undefined when no grip has such a string.
 */
export function ringing(
  { from, to, columns }: WayTable,
  chord: SoundingChord,
): ((place: number) => boolean) | undefined {
  const named = new Set([...chord.tones.map((tone) => tone.pitchClass), chord.bassClass]);
  const loose = from.grips.map((held) =>
    held.notes
      .filter(({ fret, pitch }) => isOpen(from.setup, fret) && !named.has(pitchClass(pitch)))
      .map(({ string }) => string),
  );
  if (loose.every((strings) => strings.length === 0)) return undefined;
  const ends = to.grips.map(({ notes }) => {
    const strings = notes.map(({ string }) => string);
    return { highest: Math.max(...strings), lowest: Math.min(...strings) };
  });
  return (place) => {
    const end = ends[place % columns];
    const strings = loose[Math.floor(place / columns)] ?? [];
    return (
      end !== undefined && strings.some((string) => string > end.highest || string < end.lowest)
    );
  };
}

/** The frets that fingers stop on wound strings, by string number. */
function woundFrets({ notes }: HeldGrip, setup: Setup): readonly (number | undefined)[] {
  const frets: (number | undefined)[] = [];
  for (const { string, fret } of notes) {
    if (string > lowestPlain && !isOpen(setup, fret)) frets[string] = fret;
  }
  return frets;
}

function lowestOf({ grips }: WayTable["from"], index: number): number {
  return grips[index]?.stopped?.lowest ?? 0;
}
