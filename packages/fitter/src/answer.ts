/** What the fitter answers: whole parts for one lane or both, with what they cost and why. */
import type { BarId, LaneId, SlotId } from "@halflap/board/board";
import type { LaneEdit } from "@halflap/board/proposal";
import type { WishName } from "@halflap/board/wishes";
import type { Finding } from "@halflap/checker/finding";
import type { Grip } from "@halflap/theory/grip";
import type { CauseName } from "./costs/weights.ts";

/** Part of a cost, in semitones of motion. The parts of a whole add up to it. */
export type CauseCost = { readonly cause: CauseName; readonly cost: number };

/** Costs through the whole form as it is played, repeats counted each time. */
export type Costs = {
  readonly total: number;
  /** The dearest first; what costs nothing is left out. */
  readonly causes: readonly CauseCost[];
};

/** Grips for every slot of a lane that was fitted. */
export type LanePart = {
  readonly lane: LaneId;
  readonly grips: ReadonlyMap<SlotId, Grip>;
  /** What makes the lane so, one step to undo; empty when nothing changes. */
  readonly edits: readonly LaneEdit[];
  /** The capo of the part, where that is another one than the lane's. */
  readonly capo: number | undefined;
  /** Semitones that its voices move through the form as it is played. */
  readonly motion: number;
};

export type Answer = {
  /** Stable for the same board and request. */
  readonly id: string;
  readonly parts: readonly LanePart[];
  readonly costs: Costs;
  /** Nothing can cost less than this, in semitones; the total itself where that is proven. */
  readonly bound: number;
  /** What the checker says of the board with the answer in it: standing findings, in order. */
  readonly findings: readonly Finding[];
  readonly hardest: { readonly bar: BarId; readonly cost: number; readonly words: string };
  /**
   * The share of what is played, by beats and lanes, that holds another grip than the answer before
   * it most like it; for the first, than the board as it is. 0..1.
   */
  readonly distance: number;
};

/** What is asked of the fitter, beside what stands in the lanes' wishes. */
export type FitRequest = {
  /** The lanes that may change; the other is taken as it is. */
  readonly lanes: readonly LaneId[];
  readonly leaning: LeaningName;
  /** How many answers, 1 to `answersMax`. */
  readonly answers: number;
  /** Bars that may change; undefined = all. */
  readonly bars: readonly BarId[] | undefined;
};

/** In a player's words; each is a set of weights. */
export const leaningNames = [
  "plain",
  "close together",
  "more movement on top",
  "easy for the singer",
  "far apart",
] as const;
export type LeaningName = (typeof leaningNames)[number];

/** More answers than this are not given. */
export const answersMax = 8;

export type FitResult =
  | {
      readonly kind: "answers";
      /** The cheapest first; fewer than asked where there are no more that differ enough. */
      readonly answers: readonly Answer[];
      /** The same measure of the board as it is; undefined where a slot has no grip yet. */
      readonly present: Costs | undefined;
      /** What is left alone, and why: no chord to read, a rest, a line, a note without a string. */
      readonly skipped: readonly { readonly slot: SlotId; readonly words: string }[];
    }
  | {
      readonly kind: "impossible";
      /** The smallest set of wishes that can't hold together, and the slot that shows it. */
      readonly lane: LaneId;
      readonly wishes: readonly WishName[];
      readonly slot: SlotId;
      readonly words: string;
    };

/** How far the work is, for the eye: 0..1. */
export type FitProgress = { readonly done: number; readonly words: string };
