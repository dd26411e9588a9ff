/** Why this grip: what the next best one would cost, and where. */
import type { BarId, Board, LaneId, SlotId } from "@halflap/board/board";
import type { Grip } from "@halflap/theory/grip";
import type { Answer, CauseCost, FitRequest } from "./answer.ts";
import type { FitTools } from "./fit.ts";

/** Another grip in one slot, everything else of the answer free to follow. */
export type NextBest = {
  readonly grip: Grip;
  /** What the whole tune would cost more, in semitones, 0 or more. */
  readonly more: number;
  /** What makes the difference, by cause, the largest first; signed. */
  readonly causes: readonly CauseCost[];
  /** The bars that would cost more, the dearest first. */
  readonly bars: readonly { readonly bar: BarId; readonly more: number }[];
  /** "x-x-3-2-1-x would cost 4.5 more: 3 for motion in bar 7, 1.5 for ...". */
  readonly words: string;
};

/** The next best grips of a slot in an answer, at most `most`, the cheapest first. */
export declare function whyThis(
  board: Board,
  request: FitRequest,
  answer: Answer,
  at: { readonly lane: LaneId; readonly slot: SlotId; readonly most: number },
  tools: FitTools,
): readonly NextBest[];
