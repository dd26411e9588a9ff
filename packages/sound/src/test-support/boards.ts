/** Boards for tests of sound: from a chart text, and the demo tune. */
import type { Board } from "@halflap/board/board";
import { draftCopy, parseChartText } from "@halflap/board/chart-text";
import { type BoardCopy, fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { assert } from "@halflap/theory/units";
import { timelineOf } from "@halflap/timeline/passages";
import { type Performance, performanceOf, wholeTune } from "../performance.ts";

/** The board of a copy. */
export function boardOf(copy: BoardCopy): Board {
  const documents = emptyDocuments();
  fillDocuments(documents, copy);
  return makeReader(documents)();
}

/** The board of a chart: its second line, as "F, 100, swing", and its bars. */
export function charted(heading: string, bars: string): Board {
  const { draft, problems } = parseChartText(`A tune\n${heading}\n\nA\n${bars}`);
  assert(draft !== undefined && problems.length === 0, `no chart: ${heading} ${bars}`);
  let count = 0;
  const nextId = () => {
    count += 1;
    return `n${count}`;
  };
  return boardOf(draftCopy(draft, nextId));
}

/** The demo tune as it is once the two parts fit. */
export const demoBoard = boardOf(demoSolution());

/** A board played once, or as asked. */
export function played(
  board: Board,
  more: Partial<Parameters<typeof performanceOf>[2]> = {},
): Performance {
  const timeline = timelineOf(board);
  return performanceOf(board, timeline, { ...wholeTune(board, timeline), ...more });
}
