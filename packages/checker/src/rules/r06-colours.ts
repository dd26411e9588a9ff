/** R06: both parts colour the chord with the same tension, or with two forms of one. */
import { type LaneId, laneIds } from "@halflap/board/board";
import type { SoundingChord } from "@halflap/theory/chord";
import { type MidiNote, type PitchClass, pitchClass } from "@halflap/theory/units";
import { foreignClasses } from "../foreign.ts";
import { type Hit, notesOf, notesOfBoth } from "../hit.ts";
import { isPair, type PairSegment, type Segment } from "../segments.ts";
import { soundingChord, type Tune } from "../tune.ts";
import { degreeNumber, degreeWord, listed, noteWord, sentence } from "../words.ts";

/** A sounding tension; `declared` when the symbol asks for it. */
export type Colour = {
  /** ASCII, "b9". */
  readonly degree: string;
  readonly pitchClass: PitchClass;
  readonly declared: boolean;
};

/** Two forms of one degree, one in each lane. */
type Clash = Readonly<Record<LaneId, Colour>>;

/** Two forms of one degree across the parts are a fix; the same colour in both, a look. */
export function colours(segment: Segment, tune: Tune): readonly Hit[] {
  const chord = soundingChord(segment);
  if (chord === undefined || !isPair(segment)) return [];
  const upper = coloursOf(segment.upper, chord);
  const lower = coloursOf(segment.lower, chord);
  const clashes = upper.flatMap((a) =>
    lower.filter((b) => isContradiction(a, b)).map((b): Clash => ({ upper: a, lower: b })),
  );
  if (clashes.length > 0) return [contradiction(segment, tune, chord, clashes)];
  const inBoth = new Set(lower.map((colour) => colour.pitchClass));
  const foreign = foreignClasses(segment.upper, chord);
  const shared = upper.filter(
    ({ pitchClass: value }) => inBoth.has(value) && !foreign.includes(value),
  );
  return shared.length === 0 ? [] : [doubled(segment, tune, chord, shared)];
}

function doubled(
  segment: PairSegment,
  tune: Tune,
  chord: SoundingChord,
  shared: readonly Colour[],
): Hit {
  const classes = shared.map((colour) => colour.pitchClass);
  const names = shared.map((colour) => named(colour, tune, chord));
  return {
    rule: "R06",
    severity: "look",
    lanes: laneIds,
    segments: [segment],
    notes: notesOfBoth(segment, (pitch) => classes.includes(pitchClass(pitch))),
    measured: laneIds.length,
    threshold: laneIds.length,
    words: `You both add ${listed(names)}: one is enough.`,
  };
}

function contradiction(
  segment: PairSegment,
  tune: Tune,
  chord: SoundingChord,
  clashes: readonly Clash[],
): Hit {
  const { players } = tune;
  const words = clashes.map(({ upper, lower }) => {
    const [first, second] = [named(upper, tune, chord), named(lower, tune, chord)];
    return `${players.upper} plays ${first}, ${players.lower} ${second}`;
  });
  return {
    rule: "R06",
    severity: "fix",
    lanes: laneIds,
    segments: [segment],
    notes: laneIds.flatMap((lane) => {
      const classes = clashes.map((clash) => clash[lane].pitchClass);
      return notesOf(segment, lane, (pitch) => classes.includes(pitchClass(pitch)));
    }),
    measured: laneIds.length,
    threshold: laneIds.length,
    words: `${sentence(words.join("; "))}.`,
  };
}

function named(colour: Colour, tune: Tune, chord: SoundingChord): string {
  return `${degreeWord(colour.degree)} (${noteWord(colour.pitchClass, chord, tune.key)})`;
}

/** Whether two colours are two forms of one degree that the symbol does not ask for both. */
export function isContradiction(a: Colour, b: Colour): boolean {
  const sameNumber = degreeNumber(a.degree) === degreeNumber(b.degree);
  return sameNumber && a.pitchClass !== b.pitchClass && !(a.declared && b.declared);
}

/** What a tone outside the chord is by its distance above the root; 3 only above a major third. */
const undeclared: Readonly<Record<number, string>> = {
  1: "b9",
  2: "9",
  3: "#9",
  5: "11",
  6: "#11",
  8: "b13",
  9: "13",
};

/** The tensions among pitches, each class once, in the order of the pitches. */
export function coloursOf(pitches: readonly MidiNote[], chord: SoundingChord): readonly Colour[] {
  const hasMajorThird = chord.tones.some((tone) => tone.degree === "3");
  return [...new Set(pitches.map(pitchClass))].flatMap((value): readonly Colour[] => {
    const tone = chord.tones.find((candidate) => candidate.pitchClass === value);
    if (tone !== undefined) {
      const isTension = degreeNumber(tone.degree) > 8;
      return isTension ? [{ degree: tone.degree, pitchClass: value, declared: true }] : [];
    }
    const distance = pitchClass(value - chord.rootClass);
    const name = undeclared[distance];
    if (name === undefined || (distance === 3 && !hasMajorThird)) return [];
    return [{ degree: name, pitchClass: value, declared: false }];
  });
}
