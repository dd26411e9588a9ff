/**
 * Which key a chart is in: the tone profiles of Krumhansl and Kessler, and where the chart comes
 * to rest. SPEC.md T24.
 */
import type { Chord, NoteName, SoundingChord } from "./chord.ts";
import { fifthsMax, fifthsOf, type Key } from "./key.ts";
import { className, classOf } from "./pitch.ts";
import { type PitchClass, pitchClass } from "./units.ts";

/** A chord of the chart and how long it lasts, in any unit, more than 0. */
export type TimedChord = { readonly chord: Chord; readonly length: number };

/** A key with its score: 1 and a little more for a perfect match, below 0 for no match at all. */
export type KeyScore = { readonly key: Key; readonly score: number };

/** The two likeliest keys of a chart; the lead is how far apart their scores are. */
export type LikelyKey = {
  readonly best: KeyScore;
  readonly runnerUp: KeyScore;
  readonly lead: number;
};

/**
 * How well each tone of the chromatic scale, from the tonic up, was judged to fit a key
 * (Krumhansl & Kessler, Psychological Review 89, 1982; table in Krumhansl, Cognitive Foundations
 * of Musical Pitch, 1990).
 */
export const profiles: Readonly<Record<Key["mode"], readonly number[]>> = {
  major: [6.35, 2.23, 3.48, 2.33, 4.38, 4.09, 2.52, 5.19, 2.39, 3.66, 2.29, 2.88],
  minor: [6.33, 2.68, 3.52, 5.38, 2.6, 3.53, 2.54, 4.75, 3.98, 2.69, 3.34, 3.17],
};

/** A root sounds in the bass as well, so that it counts once more. Our own. */
const rootsCount = 2;

/**
 * What a tonic chord at the beginning and at the end adds to the score, and cadences if every
 * change of chord were one. Our own.
 */
const homeAtStart = 0.1;
const homeAtEnd = 0.15;
const everyCadence = 0.2;

const fifth = 7;
const modes = ["major", "minor"] as const;
const classes: readonly PitchClass[] = Array.from({ length: 12 }, (_, value) => pitchClass(value));

/**
 * Every major and minor key with its score, likeliest first; empty when nobody plays a chord. The
 * score is the correlation of the chart's tones, weighted by length, with the key's profile, and
 * a little more if the first and the last chord are its tonic, and for cadences.
 */
export function keysByLikelihood(chart: readonly TimedChord[]): readonly KeyScore[] {
  const sounding = chart.flatMap(({ chord, length }) =>
    chord.kind === "chord" ? [{ chord, length }] : [],
  );
  const [first] = sounding;
  const last = sounding.at(-1);
  if (first === undefined || last === undefined) return [];
  const weights = toneWeights(sounding);
  const chords = sounding.map(({ chord }) => chord);
  const roots = chords.map(({ root }) => root);
  return classes
    .flatMap((tonic) => modes.map((mode) => spelledKey(tonic, mode, roots)))
    .map((key) => ({
      key,
      score:
        profileMatch(weights, key) +
        (isTonic(first.chord, key) ? homeAtStart : 0) +
        (isTonic(last.chord, key) ? homeAtEnd : 0) +
        cadenceShare(chords, key) * everyCadence,
    }))
    .sort((one, other) => other.score - one.score);
}

/** The likeliest key of a chart and the runner-up; undefined when nobody plays a chord. */
export function likelyKey(chart: readonly TimedChord[]): LikelyKey | undefined {
  const [best, runnerUp] = keysByLikelihood(chart);
  if (best === undefined || runnerUp === undefined) return undefined;
  return { best, runnerUp, lead: best.score - runnerUp.score };
}

/** How long each pitch class sounds, 0 = C. */
function toneWeights(
  chart: readonly { readonly chord: SoundingChord; readonly length: number }[],
): readonly number[] {
  return classes.map((value) =>
    chart.reduce((sum, { chord, length }) => {
      const count = chord.rootClass === value ? rootsCount : 1;
      const sounds = chord.tones.some((tone) => tone.pitchClass === value);
      return sounds ? sum + length * count : sum;
    }, 0),
  );
}

/** The correlation (Pearson) of the tones from the tonic up with the profile of the mode. */
function profileMatch(weights: readonly number[], key: Key): number {
  const tonic = classOf(key.tonic);
  const heard = centred(classes.map((step) => weights[pitchClass(tonic + step)] ?? 0));
  const expected = centred(profiles[key.mode]);
  const size = Math.sqrt(product(heard, heard) * product(expected, expected));
  // All twelve tones equally long fit every key alike.
  return size === 0 ? 0 : product(heard, expected) / size;
}

function centred(values: readonly number[]): readonly number[] {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return values.map((value) => value - mean);
}

function product(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, value, index) => sum + value * (other[index] ?? 0), 0);
}

/** How many of the changes of chord are dominant to tonic, 0 to 1; a chart comes round. */
function cadenceShare(chords: readonly SoundingChord[], key: Key): number {
  const changes = chords
    .map((from, index) => ({ from, to: chords[(index + 1) % chords.length] ?? from }))
    .filter(({ from, to }) => from.rootClass !== to.rootClass);
  const cadences = changes.filter(({ from, to }) => isDominant(from, key) && isTonic(to, key));
  return changes.length === 0 ? 0 : cadences.length / changes.length;
}

function isDominant(chord: SoundingChord, key: Key): boolean {
  const isMajor = chord.tones.some((tone) => tone.degree === "3");
  return isMajor && chord.rootClass === pitchClass(classOf(key.tonic) + fifth);
}

function isTonic(chord: SoundingChord, key: Key): boolean {
  const isMinor = chord.tones.some((tone) => tone.degree === "b3");
  return chord.rootClass === classOf(key.tonic) && isMinor === (key.mode === "minor");
}

/**
 * Of the two names of a key on a black note, the one with the smaller signature, unless the other
 * is a usual key too and the chart writes its root more often.
 */
function spelledKey(tonic: PitchClass, mode: Key["mode"], roots: readonly NoteName[]): Key {
  const flat: Key = { tonic: className(tonic, "flats"), mode };
  const sharp: Key = { tonic: className(tonic, "sharps"), mode };
  const [plainer, other] =
    Math.abs(fifthsOf(sharp)) < Math.abs(fifthsOf(flat)) ? [sharp, flat] : [flat, sharp];
  const count = (name: NoteName) => roots.filter((root) => root === name).length;
  const isUsual = Math.abs(fifthsOf(other)) <= fifthsMax;
  return isUsual && count(other.tonic) > count(plainer.tonic) ? other : plainer;
}
