/** What a chord demands of a grip: which tones may sound, and which must on so many strings. */
import type { ChordTone, SoundingChord } from "./chord.ts";
import { degreeNumber } from "./degree.ts";
import type { PitchClass } from "./units.ts";

/** A set of pitch classes, one bit each. */
export type ClassSet = number;

/** One of these tones has to sound. */
export type Demand = { readonly anyOf: ClassSet; readonly tones: readonly ChordTone[] };

/** A chord as the neck search sees it. */
export type Demands = {
  /** The tones the symbol asks for, its slash bass among them. */
  readonly tones: ClassSet;
  readonly tensions: ClassSet;
  readonly toneCount: number;
  /** What the lowest string has to sound when nobody else plays the bass; 0 = anything. */
  readonly lowest: ClassSet;
  /** In order of weight: on few strings the last are let go. */
  readonly required: readonly Demand[];
  /** On two strings nothing is required but of a power chord, which has only two tones. */
  readonly needsBoth: boolean;
};

/** Strings from which a grip has to make the chord; two are a colour beside the other guitar. */
const spellingStrings = 3;

/**
 * What the chord demands. Without `rootless` the root, and a slash bass lowest, are part of it;
 * `coloured` lets in tones that the symbol does not name.
 */
export function demandsOf(chord: SoundingChord, rootless: boolean, coloured: boolean): Demands {
  const tones = classSet(chord.tones.map((tone) => tone.pitchClass));
  const bass = classSet([chord.bassClass]);
  const isSlash = chord.bassClass !== chord.rootClass;
  const root = chord.tones.filter((tone) => tone.degree === "1");
  const isPower = chord.family === "power";
  return {
    tones: tones | bass,
    tensions: coloured ? classSet(chord.tensions.map((tone) => tone.pitchClass)) & ~bass : 0,
    toneCount: countClasses(tones),
    lowest: isSlash && !rootless ? bass : 0,
    required: [
      ...byNumber(chord.guideTones),
      ...byNumber(declaredColours(chord)),
      ...byNumber(isPower ? chord.tones : rootless ? [] : root),
    ],
    needsBoth: isPower,
  };
}

/** The demands that stand on so many strings: SPEC.md T12. */
export function requiredOn(demands: Demands, strings: number): readonly Demand[] {
  if (strings < spellingStrings && !demands.needsBoth) return [];
  const kept = demands.required.slice(0, strings);
  const bass = lowestOn(demands, strings);
  const isBassApart = bass !== 0 && kept.every(({ anyOf }) => (anyOf & bass) === 0);
  // A bass that is none of them needs a string of its own.
  return isBassApart ? kept.slice(0, strings - 1) : kept;
}

/** What the lowest of so many strings has to sound when nobody plays the bass; 0 = anything. */
export function lowestOn(demands: Demands, strings: number): ClassSet {
  return strings < spellingStrings ? 0 : demands.lowest;
}

/** How many tones beyond the symbol's own may colour a grip on so many strings: SPEC.md T13. */
export function tensionsMaxOn(strings: number): number {
  return Math.max(1, strings - 2);
}

/** The set of some pitch classes. */
export function classSet(classes: readonly PitchClass[]): ClassSet {
  return classes.reduce((set, value) => set | (1 << value), 0);
}

/** How many pitch classes a set holds. */
export function countClasses(set: ClassSet): number {
  let count = 0;
  for (let left = set; left !== 0; left &= left - 1) count++;
  return count;
}

/** The colours the symbol names: neither what makes the chord nor what it can spare. */
function declaredColours(chord: SoundingChord): readonly ChordTone[] {
  const others = new Set([...chord.guideTones, ...chord.omittable].map((tone) => tone.degree));
  return chord.tones.filter((tone) => !others.has(tone.degree));
}

/** Of two tones with one number, b9 and #9 or b5 and #5, either will do. */
function byNumber(tones: readonly ChordTone[]): readonly Demand[] {
  const groups = new Map<number, ChordTone[]>();
  for (const tone of tones) {
    const number = degreeNumber(tone.degree);
    groups.set(number, [...(groups.get(number) ?? []), tone]);
  }
  return [...groups.values()].map((group) => ({
    anyOf: classSet(group.map((tone) => tone.pitchClass)),
    tones: group,
  }));
}
