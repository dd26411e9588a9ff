/** Which sounding tones a chord symbol does not allow, and which chord they may spell instead. */
import type { NoteName, SoundingChord } from "@halflap/theory/chord";
import { type MidiNote, type PitchClass, pitchClass } from "@halflap/theory/units";

/**
 * The pitch classes outside tones, colours and slash bass, each once, from the lowest up; of
 * pitches or of pitch classes.
 */
export function foreignClasses(
  pitches: readonly (MidiNote | PitchClass)[],
  chord: SoundingChord,
): readonly PitchClass[] {
  const allowed = new Set([
    ...chord.tones.map((tone) => tone.pitchClass),
    ...chord.tensions.map((tone) => tone.pitchClass),
    chord.bassClass,
  ]);
  return [...new Set(pitches.map(pitchClass))].filter((value) => !allowed.has(value));
}

/** Triads and sevenths complete, then sevenths without their fifth: distances above the root. */
const spellings: readonly (readonly [suffix: string, intervals: readonly number[]])[] = [
  ["", [0, 4, 7]],
  ["m", [0, 3, 7]],
  ["dim", [0, 3, 6]],
  ["7", [0, 4, 7, 10]],
  ["maj7", [0, 4, 7, 11]],
  ["m7", [0, 3, 7, 10]],
  ["m(maj7)", [0, 3, 7, 11]],
  ["m7b5", [0, 3, 6, 10]],
  ["dim7", [0, 3, 6, 9]],
  ["7", [0, 4, 10]],
  ["maj7", [0, 4, 11]],
  ["m7", [0, 3, 10]],
];

/**
 * The symbol of the triad or seventh chord that the pitches spell exactly; undefined when they
 * spell none. The lowest note is tried as root first.
 */
export function chordSpelled(
  pitches: readonly MidiNote[],
  nameOf: (root: PitchClass) => NoteName,
): string | undefined {
  const classes = [...new Set(pitches.map(pitchClass))];
  for (const root of classes) {
    const distances = new Set<number>(classes.map((value) => pitchClass(value - root)));
    const spelled = spellings.find(
      ([, intervals]) =>
        intervals.length === distances.size && intervals.every((step) => distances.has(step)),
    );
    if (spelled !== undefined) return `${nameOf(root)}${spelled[0]}`;
  }
  return undefined;
}
