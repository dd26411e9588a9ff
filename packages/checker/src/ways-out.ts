/** Ways out of a finding: real changes to a lane, tried on the board and checked again. */
import type { Board, LaneId, SlotId } from "@halflap/board/board";
import { editedBoard } from "@halflap/board/edited-board";
import type { LaneEdit } from "@halflap/board/proposal";
import type { Grip } from "@halflap/theory/grip";
import { type Checker, makeChecker } from "./check.ts";
import type { Finding } from "./finding.ts";
import { preparedBoard } from "./tune.ts";
import type { Candidate } from "./ways/candidate.ts";
import { inOrder, isNews, shownMax, type Tried, worthTrying } from "./ways/choosing.ts";
import { effortOf } from "./ways/effort.ts";
import { makersFor } from "./ways/makers.ts";
import { oddnessBetween } from "./ways/oddness.ts";
import { situationOf } from "./ways/situation.ts";
import { type Difference, differenceOf, isStanding, stands, totalOf } from "./ways/weights.ts";
import { editsWithin, isCut, windowOf } from "./ways/window.ts";

export type WayOut = {
  /** Stable: lane and edits. */
  readonly id: string;
  readonly lane: LaneId;
  readonly edits: readonly LaneEdit[];
  /** What it does, as a bandmate says it: "F7 on strings 3-2-1: x-x-x-8-10-8 in bar 3". */
  readonly words: string;
  /** Standing findings that it takes away and brings. */
  readonly removes: readonly Finding[];
  readonly causes: readonly Finding[];
  /** Change of the lane's motion into and out of the slots, in semitones: lower is better. */
  readonly motion: number;
  /** Change of how hard its grips are to hold: lower is better. */
  readonly comfort: number;
  /** The grips that change, for pictures. */
  readonly grips: readonly {
    readonly slot: SlotId;
    readonly before: Grip | undefined;
    readonly after: Grip | undefined;
  }[];
};

export type WaysOutOptions = {
  /** Lanes that may change; the finding's own unless given. */
  readonly lanes?: readonly LaneId[];
  /** A checker kept for this alone: it knows the board from one question to the next. */
  readonly checker?: Checker;
};

/**
 * The best ways out of a finding of this board, at most six, truly different, the best first.
 * Each takes the finding away or makes it less grave, lowers what all findings weigh, and brings
 * no stop. Notes, praise, and what is silenced or gone need none. SPEC.md O1 to O9.
 */
export function waysOut(
  board: Board,
  finding: Finding,
  options: WaysOutOptions = {},
): readonly WayOut[] {
  if (finding.severity === "note" || !isStanding(finding)) return [];
  const trial = trialOn(board, finding, options.checker ?? makeChecker());
  if (!stands(finding, trial.before)) return [];
  const window = windowOf(board, finding);
  const nearby = trialOn(window, finding, makeChecker());
  const lanes = options.lanes ?? finding.lanes;
  const made = candidatesIn(isCut(finding) ? board : window, finding, lanes);
  const hopeful = worthTrying(made).flatMap((candidate) => {
    const edits = editsWithin(candidate.edits, window);
    const tried = nearby({ ...candidate, edits });
    return tried ? [{ ...tried, candidate }] : [];
  });
  const proven: Proven[] = [];
  for (const { candidate } of inOrder(hopeful)) {
    if (proven.length === shownMax) break;
    const chosen = proven.map((each) => each.candidate);
    const result = isNews(candidate, chosen) ? trial(candidate) : undefined;
    const difference = result && differenceOf(trial.before, result.found);
    if (result === undefined || difference === undefined) continue;
    if (difference.causes.some(({ severity }) => severity === "stop")) continue;
    proven.push({ ...result, ...difference });
  }
  return inOrder(proven).map((each) => wayOf(board, each));
}

/** All that the finding's rule gives hope for, in each lane that may change. */
function candidatesIn(
  board: Board,
  finding: Finding,
  lanes: readonly LaneId[],
): readonly Candidate[] {
  const prepared = preparedBoard(board);
  const made = lanes.flatMap((lane) => {
    const situation = situationOf(board, prepared, finding, lane);
    return makersFor[finding.rule].flatMap((maker) => maker(situation));
  });
  return [...new Map(made.map((candidate) => [idOf(candidate), candidate])).values()];
}

/** A candidate that helps, the board with it, and what is found there. */
type Result = Tried & { readonly after: Board; readonly found: readonly Finding[] };
type Proven = Result & Difference;

/** Tries candidates on a board; what does not help comes to undefined. */
type Trial = ((candidate: Candidate) => Result | undefined) & {
  /** The findings of the board as it is. */
  readonly before: readonly Finding[];
};

function trialOn(board: Board, finding: Finding, checker: Checker): Trial {
  const before = checker(board);
  const most = totalOf(before);
  const trial = (candidate: Candidate): Result | undefined => {
    const after = editedBoard(board, candidate.lane, candidate.edits);
    const found = checker(after, "try");
    const total = totalOf(found) + candidate.loss;
    if (total >= most || stands(finding, found)) return undefined;
    const odd = oddnessBetween(board, after, candidate.lane);
    return { candidate, total, odd, ...effortOf(board, after, candidate.lane), after, found };
  };
  return Object.assign(trial, { before });
}

function wayOf(board: Board, proven: Proven): WayOut {
  const { candidate, after, removes, causes, motion, comfort } = proven;
  const { lane, edits, words } = candidate;
  const grips = edits.flatMap((edit) =>
    edit.kind === "grip"
      ? [
          {
            slot: edit.slot,
            before: board.lanes[lane].grips.get(edit.slot),
            after: after.lanes[lane].grips.get(edit.slot),
          },
        ]
      : [],
  );
  return { id: idOf(candidate), lane, edits, words, removes, causes, motion, comfort, grips };
}

function idOf({ lane, edits }: Candidate): string {
  return `${lane}:${JSON.stringify(edits)}`;
}
