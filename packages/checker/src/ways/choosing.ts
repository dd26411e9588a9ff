/** The few ways out that are shown: the best, and truly different from one another. */
import type { LaneEdit } from "@halflap/board/proposal";
import type { Candidate, WayKind } from "./candidate.ts";
import type { Effort } from "./effort.ts";

/** What decides between ways out that are tried already. */
export type Tried = {
  readonly candidate: Candidate;
  /** What all findings weigh with it, and how much odder its grips are. */
  readonly total: number;
  readonly odd: number;
} & Effort;

/** So many are shown. */
export const shownMax = 6;

/** So many of one kind are shown in one lane. */
const ofKindMax: Readonly<Record<WayKind, number>> = {
  grip: 2,
  "double stop": 1,
  run: 2,
  strings: 1,
  octave: 1,
  capo: 2,
  kept: 1,
  rest: 1,
  strum: 2,
  feel: 1,
  "fill moved": 1,
  "fill cut": 1,
  "fill gone": 1,
  "fill note": 2,
  dynamic: 1,
  mute: 1,
};

/** So many times as many of a kind as are shown are worth trying. */
const triesForOne = 3;

/**
 * The candidates worth trying: of each kind the first in each lane, as their makers hope. Fills are
 * cut step by step, and only the last step may help.
 */
export function worthTrying(candidates: readonly Candidate[]): readonly Candidate[] {
  const counts = new Map<string, number>();
  return candidates.filter(({ kind, lane }) => {
    const count = (counts.get(`${lane} ${kind}`) ?? 0) + 1;
    counts.set(`${lane} ${kind}`, count);
    return kind === "fill cut" || count <= ofKindMax[kind] * triesForOne;
  });
}

/**
 * Those that let both play before those that silence bars; then the lowest total with what is odd
 * about the grips, then least motion, then comfort. Equals keep their order.
 */
export function inOrder<T extends Tried>(tried: readonly T[]): readonly T[] {
  const isRest = ({ candidate }: Tried) => (candidate.kind === "rest" ? 1 : 0);
  const weight = ({ total, odd }: Tried) => total + odd;
  return [...tried].sort(
    (a, b) =>
      isRest(a) - isRest(b) ||
      weight(a) - weight(b) ||
      a.motion - b.motion ||
      a.comfort - b.comfort,
  );
}

/** Whether there is room for one more way beside those chosen already. */
export function isNews(candidate: Candidate, chosen: readonly Candidate[]): boolean {
  const sameKind = chosen.filter(
    ({ kind, lane }) => kind === candidate.kind && lane === candidate.lane,
  );
  return (
    sameKind.length < ofKindMax[candidate.kind] &&
    !chosen.some((other) => isAlike(candidate, other))
  );
}

/**
 * Whether two ways make the same changes, or such that hardly differ, in most places. Counting the
 * capo says why, and is told beside a grip like it.
 */
function isAlike(one: Candidate, other: Candidate): boolean {
  if ((one.kind === "capo") !== (other.kind === "capo")) return false;
  if (one.lane !== other.lane || one.edits.length !== other.edits.length) return false;
  const apart = one.edits.filter((edit, index) => {
    const beside = other.edits[index];
    return beside === undefined || !isAlikeEdit(edit, beside);
  });
  return apart.length * 2 < one.edits.length;
}

/** Grips hardly differ when one only leaves out a string of the other. */
function isAlikeEdit(one: LaneEdit, other: LaneEdit): boolean {
  if (one.kind !== "grip" || other.kind !== "grip") {
    return JSON.stringify(one) === JSON.stringify(other);
  }
  if (one.slot !== other.slot || one.grip === undefined || other.grip === undefined) return false;
  const theirs = other.grip.split("-");
  const apart = one.grip.split("-").flatMap((played, string) => {
    const their = theirs[string];
    return played === their ? [] : [played === "x" || their === "x"];
  });
  return apart.length === 0 || (apart.length === 1 && apart[0] === true);
}
