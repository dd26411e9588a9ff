/** What everything costs, in semitones of motion, in one table. */
import type { Severity } from "@halflap/checker/finding";
import { weights as findingWeights } from "@halflap/checker/weights";
import { stepsPerSemitone } from "../solver/lattice.ts";

/** What a cost is for, in the order in which it is told. */
export const causeNames = [
  "motion",
  "hand shift",
  "comfort",
  "same register",
  "doubling",
  "missing note",
  "rub",
  "low and muddy",
  "colour",
  "move with no time",
  "octaves together",
  "under the voice",
  "not what was liked",
] as const;
export type CauseName = (typeof causeNames)[number];

/** A cost and what it is for; in steps. */
export type CausedSteps = { readonly cause: CauseName; readonly steps: number };

/** One row of the table: what one of `unit` costs, each time it is played. */
export type Weight = {
  /** In semitones of motion, a multiple of a half: then all sums are whole steps. */
  readonly value: number;
  readonly unit: string;
  readonly cause: CauseName;
  readonly words: string;
  /** "ours": nobody publishes such a figure; chosen beside the checker's, tuned by ear. */
  readonly source: string;
};

const ours = "ours" as const;

/** All weights by name. What a rule says costs what a finding of its severity weighs. */
export const weightTable = {
  motion: {
    value: 1,
    unit: "semitone",
    cause: "motion",
    words: "every voice on its way to the next grip; the unit of all costs",
    source: "size of a voice leading, Tymoczko, Science 313, 2006",
  },
  topMotion: {
    value: 1,
    unit: "semitone",
    cause: "motion",
    words: "the top voice of the part that lies high",
    source: ours,
  },
  topHeld: {
    value: 0,
    unit: "change",
    cause: "motion",
    words: "a change of chord over which the high part's top note stays",
    source: ours,
  },
  shift: {
    value: 0.5,
    unit: "centimetre",
    cause: "hand shift",
    words: "the hand along the neck, beyond a lean",
    source: ours,
  },
  comfort: {
    value: 0.5,
    unit: "finger's worth",
    cause: "comfort",
    words: "how hard a grip is to hold: stretch, fingers, barre, mutes, high frets",
    source: ours,
  },
  odd: {
    value: 1,
    unit: "point of oddness",
    cause: "colour",
    words: "colours that the symbol does not name, bare pairs, semitones inside a grip",
    source: "the checker's, its SPEC.md O6",
  },
  thin: {
    value: 6,
    unit: "string fewer than five",
    cause: "missing note",
    words: "few strings between both parts, or fewer than three in a part alone, sound thin",
    source: ours,
  },
  otherTriad: {
    value: 8,
    unit: "slot",
    cause: "colour",
    words: "a triad with a 13th and without its fifth, which is heard as another triad",
    source: "ours: as much as a pair that tells nothing, on common practice",
  },
  slashBass: {
    value: 4,
    unit: "slot",
    cause: "missing note",
    words: "another note lowest than the bass behind the slash, where nobody plays bass",
    source: "ours: a look's worth, on common practice",
  },
  finding: {
    value: 1,
    unit: "point of a finding",
    cause: "doubling",
    words: "what the checker's rules say: a stop 100 points, a fix 20, a look 4, a note 1",
    source: "the checker's, its SPEC.md O2",
  },
  octaves: {
    value: 0.5,
    unit: "pair of outer voices",
    cause: "octaves together",
    words: "outer voices whole octaves apart, from where both could move on alike",
    source: "Huron 2001: octaves make two voices one; the figure is ours",
  },
  sungChange: {
    value: 1.5,
    unit: "change of grip",
    cause: "under the voice",
    words: "changing grips while singing",
    source: "ours, on the checker's R28",
  },
  sungEffort: {
    value: 0,
    unit: "finger's worth",
    cause: "under the voice",
    words: "how hard a grip is to hold while singing, on top of its comfort",
    source: ours,
  },
  narrow: {
    value: 0,
    unit: "semitone of mean pitch short of an octave and a half",
    cause: "same register",
    words: "parts that lie near each other",
    source: ours,
  },
  wide: {
    value: 0,
    unit: "semitone of mean pitch beyond a sixth",
    cause: "same register",
    words: "parts that lie far from each other",
    source: ours,
  },
  notLiked: {
    value: 3,
    unit: "slot",
    cause: "not what was liked",
    words: "another grip where one that is liked would do",
    source: ours,
  },
} as const satisfies Readonly<Record<string, Weight>>;

export type WeightName = keyof typeof weightTable;
/** A value for each weight, in semitones a unit. */
export type Weights = Readonly<Record<WeightName, number>>;

/** The names of all weights, in the order of the table. */
export const weightNames = Object.keys(weightTable) as readonly WeightName[];

/** Measures are counted in eighths of their unit, so that halves of a semitone are whole steps. */
export const eighths = 8;

/** What so many eighths of a unit cost, in whole steps. */
export function stepsFor(weight: number, measuredEighths: number): number {
  return (weight * measuredEighths * stepsPerSemitone) / eighths;
}

/** What one finding of a severity costs, in whole steps. */
export function findingSteps(weights: Weights, severity: Severity): number {
  return weights.finding * findingWeights[severity] * stepsPerSemitone;
}
