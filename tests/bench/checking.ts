/** Checking a full board of 64 bars, beside copying the same board by JSON. */

import { fillDocuments } from "@halflap/board/copy";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { check } from "@halflap/checker/check";
import { fullBoard } from "../support/full-board.ts";
import { type Figure, percentile, timed } from "./figure.ts";

const bars = 64;
const runs = 100;

/**
 * Median and slow end of a check from nothing, in ms: a fresh Board each time, so no cache can
 * help.
 */
export function checking(): readonly Figure[] {
  const documents = emptyDocuments();
  fillDocuments(documents, fullBoard(bars));
  const fresh = Array.from({ length: runs + Math.ceil(runs / 5) }, () => makeReader(documents)());
  const boards = fresh.values();
  const checks = timed(runs, () => {
    const board = boards.next().value;
    if (board === undefined) throw new Error("not enough boards");
    check(board);
  });
  const sample = makeReader(documents)();
  const lanes = [...sample.lanes.upper.grips, ...sample.lanes.lower.grips];
  const copies = timed(runs, () => void JSON.parse(JSON.stringify([sample.sections, lanes])));
  return [0.5, 0.95].map((share) => ({
    name: `check of a ${bars}-bar board with both lanes full, p${share * 100}`,
    unit: "ms",
    value: percentile(checks, share),
    budget: 16,
    baseline: { name: "copying the board by JSON", value: percentile(copies, share) },
  }));
}
