/** What the page and the worker that fits say to each other. */
import type { LaneId, SlotId } from "@halflap/board/board";
import type { FitProgress, FitRequest, FitResult } from "@halflap/fitter/answer";
import type { Mending } from "@halflap/fitter/mended";
import type { NextBest } from "@halflap/fitter/why";
import type { FeedMessage } from "../session/board-feed.ts";

/** A slot of an answer, and how many other grips are wanted for it. */
export type WhyPlace = { readonly lane: LaneId; readonly slot: SlotId; readonly most: number };

export type FitQuestion =
  | FeedMessage
  | { readonly kind: "fit"; readonly question: number; readonly request: FitRequest }
  /** About an answer of the last fit, by its id. */
  | {
      readonly kind: "why";
      readonly question: number;
      readonly answer: string;
      readonly at: WhyPlace;
    }
  | { readonly kind: "mend"; readonly question: number; readonly answer: string };

/** What is answered to a question about an answer that is not known any more. */
type Forgotten = undefined;

export type FitReply =
  | { readonly kind: "progress"; readonly question: number; readonly progress: FitProgress }
  | { readonly kind: "result"; readonly question: number; readonly result: FitResult }
  | {
      readonly kind: "why";
      readonly question: number;
      readonly next: readonly NextBest[] | Forgotten;
    }
  | { readonly kind: "mended"; readonly question: number; readonly mending: Mending | Forgotten }
  /** Something broke; the words are for whoever looks into it. */
  | { readonly kind: "failed"; readonly question: number; readonly words: string };
