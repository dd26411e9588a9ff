/** What everything costs, in semitones of motion, in one table; and the leanings that bend it. */

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
