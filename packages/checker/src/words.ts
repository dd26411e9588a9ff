/** How findings name notes, degrees and numbers. */
import type { NoteName, SoundingChord } from "@halflap/theory/chord";
import { pretty } from "@halflap/theory/display";
import { type Key, nameInKey } from "@halflap/theory/key";
import { spelledPitch } from "@halflap/theory/pitch";
import { type MidiNote, type PitchClass, pitchClass } from "@halflap/theory/units";

/** A note as the chord spells it, else as the key does: "F♯" in D7, whatever the key. */
export function noteWord(value: PitchClass, chord: SoundingChord | undefined, key: Key): string {
  return pretty(spelling(value, chord, key));
}

/** A note with its octave, "F♯4". */
export function pitchWord(pitch: MidiNote, chord: SoundingChord | undefined, key: Key): string {
  return pretty(spelledPitch(pitch, spelling(pitchClass(pitch), chord, key)));
}

/** A degree as it is said: "the 3rd" for major and minor, "the 9th", "the ♭9", "the ♯11". */
export function degreeWord(degree: string): string {
  const number = degreeNumber(degree);
  const isPlain = degree === String(number) || number === 3 || number === 7;
  if (!isPlain) return `the ${pretty(degree)}`;
  return `the ${number}${{ 2: "nd", 3: "rd" }[number] ?? "th"}`;
}

/** The number of a degree without its accidentals: 9 for "b9". */
export function degreeNumber(degree: string): number {
  return Number(degree.replace(/^[b#]+/, ""));
}

/** "A", "A and B", "A, B and C". */
export function listed(words: readonly string[]): string {
  const last = words.at(-1) ?? "";
  const before = words.slice(0, -1);
  return before.length > 0 ? `${before.join(", ")} and ${last}` : last;
}

const small = "no one two three four five six seven eight nine ten eleven twelve".split(" ");

/** A count in words up to twelve, in digits beyond. */
export function counted(count: number): string {
  return small[count] ?? String(count);
}

/** A sentence begins with a capital letter: "the upper lane" does, "Mara" stays. */
export function sentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function spelling(value: PitchClass, chord: SoundingChord | undefined, key: Key): NoteName {
  const tone = [...(chord?.tones ?? []), ...(chord?.tensions ?? [])].find(
    (candidate) => candidate.pitchClass === value,
  );
  if (tone !== undefined) return tone.name;
  return chord?.bassClass === value ? chord.bass : nameInKey(value, key);
}
