/** Every limit that a rule compares with, in one table, and what a band has set differently. */
import type { Board } from "@halflap/board/board";
import { remembered } from "@halflap/board/remembered";
import type { RuleId } from "./finding.ts";

export type Limit = {
  readonly rule: RuleId;
  readonly value: number;
  /** What a band may set, both ends included. */
  readonly least: number;
  readonly most: number;
  readonly unit: string;
  /** What it decides, in a few words. */
  readonly words: string;
  /**
   * Where the value is from. "ours" is a limit that nobody publishes: chosen for this checker,
   * tuned by ear. The sources of the rules stand in SPEC.md.
   */
  readonly source: string;
};

const share = { least: 0, most: 1, unit: "share", source: "ours" } as const;
const count = { least: 1, most: 12, unit: "notes", source: "ours" } as const;
const bars = { least: 1, most: 16, unit: "bars", source: "ours" } as const;
const beats = { least: 0, most: 8, unit: "beats", source: "ours" } as const;
const quarters = { ...beats, unit: "quarter notes" } as const;
const strokes = {
  ...{ least: 0.25, most: 8, unit: "strokes a quarter note" },
  source: "ours",
} as const;
const semitone = { least: 0, most: 24, unit: "semitones", source: "ours" } as const;
const steps = { least: 1, most: 16, unit: "of 16 steps", source: "ours" } as const;
const cycles = {
  ...{ least: 1, most: 12, unit: "arm cycles a second" },
  source: "Fujii et al. 2009: one hand 5 to 7 Hz",
} as const;
const length = { least: 10, most: 300, unit: "mm", source: "ours" } as const;

/** All limits by name. */
export const limitTable = {
  overlapLook: { rule: "R01", value: 0.5, ...share, words: "a look from this overlap" },
  overlapFix: { rule: "R01", value: 0.75, ...share, words: "a fix from this overlap" },
  overlapFixBars: { rule: "R01", value: 2, ...bars, words: "bars in a row that make it certain" },
  meanGapTie: {
    rule: "R01",
    value: 5,
    ...semitone,
    words: "mean pitches nearer: one bar is enough",
  },
  unisonNote: { rule: "R02", value: 1, ...count, words: "shared pitches for a note" },
  unisonLook: { rule: "R02", value: 2, ...count, words: "shared pitches for a look" },
  unisonShareLook: { rule: "R02", value: 0.5, ...share, words: "of the smaller part, for a look" },
  unisonShareFix: { rule: "R02", value: 0.75, ...share, words: "of the smaller part, for a fix" },
  sameSound: { rule: "R03", value: 0.8, ...share, words: "pitches in both over pitches in either" },
  guideTonePitches: { rule: "R04", value: 2, ...count, words: "octaves of a guide tone, a note" },
  guideTonePitchesLook: { rule: "R04", value: 3, ...count, words: "octaves of it, a look" },
  leadingTones: { rule: "R05", value: 2, ...count, words: "strings with the leading tone" },
  missing: { rule: "R07", value: 1, ...count, words: "guide tones that nobody plays" },
  mudNote: { rule: "R08", value: 1, ...semitone, words: "below the low-interval limit, a note" },
  mudLook: { rule: "R08", value: 2, ...semitone, words: "below it, a look" },
  mudFix: { rule: "R08", value: 4, ...semitone, words: "below it, a fix" },
  mudTable: {
    rule: "R08",
    value: 2,
    least: 1,
    most: 2,
    unit: "table: 1 strict, 2 usual",
    source: "two published low-interval tables, see SPEC.md",
    words: "which low-interval table",
  },
  bassZone: {
    rule: "R09",
    value: 52,
    least: 40,
    most: 60,
    unit: "MIDI note",
    source: "ours: E3, a working line",
    words: "notes below this are the bass player's",
  },
  bassFloor: {
    rule: "R09",
    value: 45,
    least: 36,
    most: 52,
    unit: "MIDI note",
    source: "ours: A2",
    words: "below this a guitar makes another bass note",
  },
  bassNotes: { rule: "R09", value: 2, ...count, words: "low notes in one part" },
  rub: {
    rule: "R10",
    value: 0.5,
    ...quarters,
    words: "a rub of a passing note up to this is nothing",
  },
  roughness: {
    rule: "R12",
    value: 1.5,
    least: 1,
    most: 5,
    unit: "times the median of the tune",
    source: "ours, on Plomp & Levelt 1965",
    words: "roughest sound of the tune",
  },
  foreign: { rule: "R13", value: 1, ...count, words: "tones outside the chord, a look" },
  foreignOtherChord: { rule: "R13", value: 2, ...count, words: "that may spell another chord" },
  parallelLook: { rule: "R15", value: 2, ...bars, unit: "moves", words: "parallel moves, a look" },
  parallelFix: { rule: "R15", value: 4, ...bars, unit: "moves", words: "parallel moves, a fix" },
  crossing: { rule: "R16", value: 0.25, ...share, words: "of the beats with crossed parts" },
  jump: { rule: "R17", value: 3, ...semitone, words: "a voice moves more than this on average" },
  jumpSpared: {
    rule: "R17",
    value: 1.5,
    ...semitone,
    words: "while another grip costs this at most",
  },
  sameStrum: { rule: "R18", value: 0.9, ...share, words: "of all strokes in both parts" },
  sameStrumBars: { rule: "R18", value: 2, ...bars, words: "bars in a row that make it a fix" },
  sharedBeats: { rule: "R18", value: 0.75, ...share, words: "of the beats struck by both, a note" },
  interlock: { rule: "R19", value: 1 / 3, ...share, words: "strokes in common at most, to lock" },
  interlockCovered: {
    ...{ rule: "R19", value: 0.5, ...share },
    words: "of the thinner part's strokes in common at most, to lock",
  },
  interlockCover: { rule: "R19", value: 0.5, ...share, words: "of the eighths filled, to lock" },
  thinCover: { rule: "R19", value: 0.3, ...share, words: "of the eighths filled, below it thin" },
  flam: {
    rule: "R20",
    value: 35,
    least: 5,
    most: 80,
    unit: "ms",
    source: "preprint osf jsg94: guitar and bass about 31 to 35 ms",
    words: "strokes apart by no more than this",
  },
  denseLane: { rule: "R21", value: 12, ...steps, words: "struck in a dense part" },
  denseOther: { rule: "R21", value: 8, ...steps, words: "struck in the other, a look" },
  armLook: { rule: "R22", value: 4, ...cycles, words: "a look above", source: "ours" },
  armFix: { rule: "R22", value: 5, ...cycles, words: "a fix above" },
  armStop: { rule: "R22", value: 7, ...cycles, words: "a stop above" },
  shortStep: {
    rule: "R22",
    value: 100,
    least: 40,
    most: 300,
    unit: "ms",
    source: "Repp 2003, 2006: 100 to 125 ms",
    words: "steps shorter than this",
  },
  fillOverlap: { rule: "R23", value: 0.5, ...beats, words: "both fill for longer" },
  fillOverVoice: { rule: "R24", value: 0.5, ...beats, words: "a fill under the voice for longer" },
  heldNote: { rule: "R24", value: 2, ...beats, words: "a sung note from this length is held" },
  emptyGap: { rule: "R25", value: 2, ...beats, words: "a gap from this length" },
  emptyGaps: { rule: "R25", value: 2, ...bars, unit: "gaps", words: "empty in a row" },
  fillLate: { rule: "R26", value: 0.25, ...beats, words: "before the gap ends" },
  maskLook: { rule: "R27", value: 1.5, ...strokes, words: "in the sung range, a look" },
  maskFix: { rule: "R27", value: 2.5, ...strokes, words: "in the sung range, a fix" },
  maskPad: { rule: "R27", value: 2, ...quarters, words: "a chord held from this length is a pad" },
  maskMelody: { rule: "R27", value: 3, ...count, words: "of the melody in a row, doubled" },
  singLook: { rule: "R28", value: 1.5, ...strokes, words: "while singing, a look" },
  singFix: { rule: "R28", value: 2.5, ...strokes, words: "while singing, a fix" },
  singChanges: {
    rule: "R28",
    value: 1,
    least: 0,
    most: 8,
    unit: "grip changes a bar",
    source: "ours",
    words: "while singing, a look above",
  },
  singShift: { rule: "R28", value: 60, ...length, words: "hand shift while singing, a look above" },
  singOffBeats: {
    rule: "R28",
    value: 3,
    ...count,
    unit: "strokes",
    words: "in a phrase, all off the beat",
  },
  moveStop: {
    rule: "R29",
    value: 0.6,
    ...share,
    words: "of the time the move takes, a stop below",
  },
  moveSpeed: {
    rule: "R29",
    value: 1,
    least: 0.2,
    most: 5,
    unit: "m/s",
    source: "ours",
    words: "mean speed of the hand, a look above",
  },
  moveStart: {
    rule: "R29",
    value: 0.08,
    least: 0,
    most: 1,
    unit: "s",
    source: "ours, in the form of Fitts 1954",
    words: "every move takes this",
  },
  movePerBit: {
    rule: "R29",
    value: 0.1,
    least: 0.01,
    most: 1,
    unit: "s a bit",
    source: "ours, about 10 bits/s (Fitts 1954, from memory)",
    words: "and this for each doubling of the way",
  },
  moveTarget: { rule: "R29", value: 15, ...length, words: "how wide the goal is" },
  moveFrets: { rule: "R29", value: 2, ...semitone, unit: "frets", words: "nearer is no move" },
  fingers: {
    rule: "R30",
    value: 4,
    least: 1,
    most: 5,
    unit: "fingers",
    source: "common practice",
    words: "at most",
  },
  stretchLook: {
    rule: "R30",
    value: 97.5,
    ...length,
    source: "frets 1 to 4 of 648 mm",
    words: "a look above",
  },
  stretchStop: {
    rule: "R30",
    value: 126.5,
    ...length,
    source: "frets 1 to 5 of 648 mm",
    words: "a stop above",
  },
  squeak: {
    rule: "R31",
    value: 2,
    ...semitone,
    unit: "frets",
    words: "shift on wound strings from",
  },
  loudnessStep: {
    rule: "R33",
    value: 2,
    ...bars,
    unit: "steps",
    words: "apart in loudness, a look",
  },
  loudUnderVoice: {
    rule: "R33",
    value: 4,
    least: 1,
    most: 6,
    unit: "1 for pp to 6 for ff",
    source: "ours: mf",
    words: "under the voice, a look above",
  },
} as const satisfies Readonly<Record<string, Limit>>;

export type LimitName = keyof typeof limitTable;
/** A value for each limit, in its unit. */
export type Limits = Readonly<Record<LimitName, number>>;

/** The names of all limits, in the order of the table. */
export const limitNames = Object.keys(limitTable) as readonly LimitName[];

/** The distances in semitones that rub: a semitone, and a minor ninth. R10, R11. */
export const rubDistance = { semitone: 1, minorNinth: 13 } as const;

/** The limits as a band uses them: what it has set, within its range, else the table's. */
export function limitsOf(board: Pick<Board, "limits">): Limits {
  return limitsWith(board.limits);
}

const limitsWith = remembered((own: Board["limits"]): Limits => {
  const values = limitNames.map((name) => {
    const { value, least, most } = limitTable[name];
    const set = own.get(name);
    return [name, set === undefined ? value : Math.min(most, Math.max(least, set))];
  });
  return Object.fromEntries(values);
});

/** Whether a measured share reaches a limit; a share that differs by rounding only does. */
export function reaches(measured: number, limit: number): boolean {
  const rounding = 1e-9;
  return measured >= limit - rounding;
}

/** Whether a measure lies above a limit by more than rounding. */
export function exceeds(measured: number, limit: number): boolean {
  return !reaches(limit, measured);
}
