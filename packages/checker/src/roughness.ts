/**
 * Sensory roughness: how much the partials of notes beat against each other. Plomp & Levelt, JASA
 * 38, 1965, in the parametrisation that Sethares prints with his program
 * (sethares.engr.wisc.edu/comprog.html). It ranks sounds of one tune; it says nothing by itself.
 */
import { frequency } from "@halflap/theory/pitch";
import { type Hz, hz, type MidiNote } from "@halflap/theory/units";

/** A sine with its amplitude, 1 = that of a fundamental. */
type Sine = { readonly frequency: Hz; readonly amplitude: number };

/** Six harmonics, each so much softer than the one before it: our own picture of a string. */
const harmonics = 6;
const decay = 0.88;

/** The curve: two falling exponentials over the distance in critical bands. Sethares. */
const curve = { slow: 3.51, fast: 5.75, height: 5, scale: 0.24, slope: 0.0207, offset: 18.96 };

/** The roughness of two sines, 0 at a unison, highest about a quarter of a critical band apart. */
export function sineRoughness(a: Sine, b: Sine): number {
  const low = Math.min(a.frequency, b.frequency);
  const apart = Math.abs(a.frequency - b.frequency);
  const x = (curve.scale * apart) / (curve.slope * low + curve.offset);
  const loud = Math.min(a.amplitude, b.amplitude);
  return loud * curve.height * (Math.exp(-curve.slow * x) - Math.exp(-curve.fast * x));
}

/** What two notes add to each other, their own partials left out; 0 or more. */
export function roughnessBetween(a: MidiNote, b: MidiNote): number {
  // The order of a sum shows in its last digit: the lower note always comes first.
  const [low, high] = a < b ? [a, b] : [b, a];
  const pair = low * notes + high;
  const known = between[pair];
  if (known !== undefined) return known;
  const other = partialsOf(high);
  const rough = sum(partialsOf(low).flatMap((one) => other.map((two) => sineRoughness(one, two))));
  between[pair] = rough;
  return rough;
}

/** The roughness of notes together, over every pair of their partials. */
export function roughnessOf(pitches: readonly MidiNote[]): number {
  let rough = 0;
  for (const [index, pitch] of pitches.entries()) {
    rough += roughnessWithin(pitch);
    for (const other of pitches.slice(index + 1)) rough += roughnessBetween(pitch, other);
  }
  return rough;
}

const notes = 128;
/** Remembered: there are few notes on a neck, and each pair comes back all over a tune. */
const between: (number | undefined)[] = new Array(notes * notes);
const within: (number | undefined)[] = new Array(notes);

function roughnessWithin(pitch: MidiNote): number {
  const known = within[pitch];
  if (known !== undefined) return known;
  const partials = partialsOf(pitch);
  const rough = sum(
    partials.flatMap((one, index) =>
      partials.slice(index + 1).map((two) => sineRoughness(one, two)),
    ),
  );
  within[pitch] = rough;
  return rough;
}

function partialsOf(pitch: MidiNote): readonly Sine[] {
  const first = frequency(pitch);
  return Array.from({ length: harmonics }, (_, index) => ({
    frequency: hz(first * (index + 1)),
    amplitude: decay ** index,
  }));
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
