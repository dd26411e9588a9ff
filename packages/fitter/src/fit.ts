/** The best parts for a board: one lane around the other as it is, or both at once. */
import type { Board } from "@halflap/board/board";
import type { FitProgress, FitRequest, FitResult } from "./answer.ts";
import type { MinPlus } from "./min-plus.ts";

/** What the shell lends: the fast product, and an ear for progress. */
export type FitTools = {
  readonly minPlus: MinPlus;
  readonly onProgress?: (progress: FitProgress) => void;
};

/**
 * Answers for the board under the wishes of its lanes, exact over all grips that the neck has for
 * them; deterministic. To cancel, end the worker it runs in.
 */
export declare function fit(board: Board, request: FitRequest, tools: FitTools): FitResult;
