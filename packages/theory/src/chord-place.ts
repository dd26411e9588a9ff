/** Where a chord stands in a key and where it belongs: SPEC.md T6. */
import type { Chord, SoundingChord } from "./chord.ts";
import type { Key } from "./key.ts";
import { scaleStep } from "./letter-degree.ts";
import { classOf } from "./pitch.ts";
import { type PitchClass, pitchClass } from "./units.ts";

/**
 * Where a chord comes from. `home`: every tone is in the key, or it is one of the dominant
 * sevenths heard as at home (T6). `secondary`: it leads to another chord of the key. `substitute`:
 * the dominant a tritone away from the one expected. `borrowed`: every tone is in the key of the
 * other mode on the same tonic. `outside`: none of these.
 */
export type ChordOrigin = "home" | "secondary" | "substitute" | "borrowed" | "outside";

export type ChordPlace = {
  /** Small for a minor third: "ii", "bVI", "V", "vii". */
  readonly numeral: string;
  /** The numeral of the chord a secondary chord leads to. */
  readonly target: string | undefined;
  readonly origin: ChordOrigin;
};

const romans = "I II III IV V VI VII".split(" ");

type Steps = ReadonlyMap<number, string>;

/** The chords of the key that a secondary chord may lead to, written as the key writes them. */
const targets: Readonly<Record<Key["mode"], Steps>> = {
  major: new Map([
    [2, "ii"],
    [4, "iii"],
    [5, "IV"],
    [7, "V"],
    [9, "vi"],
  ]),
  minor: new Map([
    [3, "bIII"],
    [5, "iv"],
    [7, "V"],
    [8, "bVI"],
    [10, "bVII"],
  ]),
};

/**
 * Steps whose dominant seventh is heard as at home, V7 itself and the blues' I7 and IV7: common
 * practice.
 */
const dominantsAtHome: Readonly<Record<Key["mode"], ReadonlySet<number>>> = {
  major: new Set([0, 5, 7, 10]),
  minor: new Set([5, 7, 8, 10]),
};

/** Major triads that belong to the key; any other may be a dominant if the next chord says so. */
const majorsAtHome: Readonly<Record<Key["mode"], ReadonlySet<number>>> = {
  major: new Set([0, 5, 7]),
  minor: new Set([3, 7, 8, 10]),
};

/** Steps whose diminished chord is the key's own: vii, and in minor the ii with its flat fifth. */
const diminishedAtHome: Readonly<Record<Key["mode"], ReadonlySet<number>>> = {
  major: new Set([11]),
  minor: new Set([2, 11]),
};

/** The tones of each mode; in minor the raised sixth and seventh belong to it as well. */
const scales: Readonly<Record<Key["mode"], ReadonlySet<number>>> = {
  major: new Set([0, 2, 4, 5, 7, 9, 11]),
  minor: new Set([0, 2, 3, 5, 7, 8, 9, 10, 11]),
};

/** What major borrows from: the natural minor with its leading tone. */
const borrowedFromMinor: ReadonlySet<number> = new Set([0, 2, 3, 5, 7, 8, 10, 11]);

const fourth = 5;

/**
 * The place of a chord in a key. Sevenths say by themselves that they are secondary dominants;
 * triads, diminished chords and sevenths that may be at home only if `next` is where they lead.
 */
export function chordPlace(chord: SoundingChord, key: Key, next?: Chord): ChordPlace {
  const step = pitchClass(chord.rootClass - classOf(key.tonic));
  const dominant = dominantTarget(chord, step, key, next);
  if (dominant !== undefined) {
    return { numeral: "V", target: dominant, origin: originOf(chord, key, next, true) };
  }
  const leading = leadingToneTarget(chord, step, key, next);
  if (leading !== undefined) return { numeral: "vii", target: leading, origin: "secondary" };
  const numeral = scaleStep(key.tonic, chord.root).replace(/\d/, romanOf);
  return {
    numeral: has(chord, "b3") ? numeral.toLowerCase() : numeral,
    target: undefined,
    origin: originOf(chord, key, next, false),
  };
}

/** Steps are counted from the major scale in both modes. */
function romanOf(step: string): string {
  return romans[Number(step) - 1] ?? step;
}

function originOf(
  chord: SoundingChord,
  key: Key,
  next: Chord | undefined,
  isSecondary: boolean,
): ChordOrigin {
  const steps = chord.tones.map((tone) => pitchClass(tone.pitchClass - classOf(key.tonic)));
  const step = pitchClass(chord.rootClass - classOf(key.tonic));
  const fits = (scale: ReadonlySet<number>) => steps.every((each) => scale.has(each));
  if (isSecondary) return "secondary";
  if (fits(scales[key.mode])) return "home";
  const isDominant = chord.family === "dominant";
  if (isDominant && dominantsAtHome[key.mode].has(step)) return "home";
  if (isDominant && rootOf(next) === pitchClass(chord.rootClass - 1)) return "substitute";
  return fits(key.mode === "major" ? borrowedFromMinor : scales.major) ? "borrowed" : "outside";
}

function dominantTarget(
  chord: SoundingChord,
  step: PitchClass,
  key: Key,
  next: Chord | undefined,
): string | undefined {
  const goal = targets[key.mode].get(pitchClass(step + fourth));
  if (!has(chord, "3") || goal === undefined) return undefined;
  const resolves = rootOf(next) === pitchClass(chord.rootClass + fourth);
  if (chord.family === "dominant") {
    // C7 to F7 is the blues at home, C7 to F or Fmaj7 leads there.
    const leadsOn = resolves && next?.kind === "chord" && next.family !== "dominant";
    return dominantsAtHome[key.mode].has(step) && !leadsOn ? undefined : goal;
  }
  const isTriad = chord.tones.length === 3;
  const isPlain = isTriad && has(chord, "5");
  const isRaised = isTriad && has(chord, "#5");
  const isDominant = (isPlain && !majorsAtHome[key.mode].has(step)) || isRaised;
  return resolves && isDominant ? goal : undefined;
}

/**
 * A diminished chord a semitone below the next root is built on that chord's leading tone; a half-
 * diminished one only below a major chord, as it is the second step of a minor key otherwise.
 */
function leadingToneTarget(
  chord: SoundingChord,
  step: PitchClass,
  key: Key,
  next: Chord | undefined,
): string | undefined {
  const isHalf = chord.family === "half-diminished";
  if (chord.family !== "diminished" && !isHalf) return undefined;
  if (next?.kind !== "chord" || diminishedAtHome[key.mode].has(step)) return undefined;
  if (rootOf(next) !== pitchClass(chord.rootClass + 1)) return undefined;
  return isHalf && has(next, "b3") ? undefined : targets[key.mode].get(pitchClass(step + 1));
}

function rootOf(chord: Chord | undefined): PitchClass | undefined {
  return chord?.kind === "chord" ? chord.rootClass : undefined;
}

function has(chord: SoundingChord, degree: string): boolean {
  return chord.tones.some((tone) => tone.degree === degree);
}
