/** What a fit came to, before it is text or JSON. */
import type { Bar, Board, LaneId, Slot, SlotId } from "@halflap/board/board";
import type { Answer, Costs, FitRequest } from "@halflap/fitter/answer";
import type { Mending } from "@halflap/fitter/mended";
import type { NextBest } from "@halflap/fitter/why";
import type { Grip } from "@halflap/theory/grip";

/** A slot with where it stands. */
export type PlacedSlot = { readonly bar: Bar; readonly slot: Slot };

/** Why a lane holds what it holds in a slot; `next` is empty where it had nothing to choose. */
export type Reason = PlacedSlot & {
  readonly lane: LaneId;
  /** undefined where nothing was chosen. */
  readonly held: Grip | undefined;
  readonly next: readonly NextBest[];
};

export type FitReport = {
  readonly board: Board;
  readonly request: FitRequest;
  readonly answers: readonly Answer[];
  /** undefined where a slot has no grip yet. */
  readonly present: Costs | undefined;
  readonly skipped: readonly { readonly slot: SlotId; readonly words: string }[];
  /** Number of the answer that the rest is about, from 1. */
  readonly take: number;
  readonly reasons: readonly Reason[];
  /** undefined where nobody asked. */
  readonly mending: Mending | undefined;
  /** Where the copy was written. */
  readonly copy: string | undefined;
};

/** All slots of a chart in its order. */
export function slotsOf({ sections }: Board): readonly PlacedSlot[] {
  return sections.flatMap(({ bars }) =>
    bars.flatMap((bar) => bar.slots.map((slot) => ({ bar, slot }))),
  );
}

/** What an answer costs above what is proven that it can't be below, in semitones. */
export function unprovenOf({ costs, bound }: Answer): number {
  return Math.max(0, costs.total - bound);
}
