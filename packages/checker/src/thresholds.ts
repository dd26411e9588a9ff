/** Every limit that a rule compares with, in one table. */

/**
 * "Ours" is a limit that nobody publishes: chosen for this checker, tuned by ear. The sources of
 * the rules stand in SPEC.md.
 */
export const thresholds = {
  /** R01: share of the narrower part's span, 0..1, averaged by beats. Ours. */
  overlapLook: 0.5,
  overlapFix: 0.75,
  /** R01: bars in a row that make an overlap certain. Ours. */
  overlapFixBars: 2,
  /** R01: below this distance of the mean pitches, in semitones, even one bar is certain. Ours. */
  meanGapTie: 5,
  /** R02: pitches in both parts, and their share of the smaller part, 0..1. Ours. */
  unisonNote: 1,
  unisonLook: 2,
  unisonShareLook: 0.5,
  unisonShareFix: 0.75,
  /** R03: pitches in both parts over pitches in either, 0..1. Ours. */
  sameSound: 0.8,
  /** R04: different pitches on which one guide tone sounds. Ours. */
  guideTonePitches: 2,
  guideTonePitchesLook: 3,
  /** R05: strings that sound the leading tone: one is right, two double it. */
  leadingTones: 2,
  /** R06: parts that play one colour, or two forms of it. */
  colours: 2,
  /** R07: guide tones that nobody plays. */
  missing: 1,
  /** R10, R11: the distances in semitones that rub: a semitone, and a minor ninth. */
  semitone: 1,
  minorNinth: 13,
  /** R13: tones of one grip that the chord symbol does not allow. Ours. */
  foreign: 1,
  foreignOtherChord: 2,
} as const;

/** Whether a measured share reaches a limit; a share that differs by rounding only does. */
export function reaches(measured: number, limit: number): boolean {
  const rounding = 1e-9;
  return measured >= limit - rounding;
}
