/** Boards for tests of sound: from a chart text, and the demo tune. */
import type { Board, LaneId } from "@halflap/board/board";
import { draftCopy, parseChartText } from "@halflap/board/chart-text";
import { type BoardCopy, fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { editedBoard } from "@halflap/board/edited-board";
import { strumId } from "@halflap/board/ids";
import type { LaneEdit } from "@halflap/board/proposal";
import { makeReader } from "@halflap/board/read";
import { parseStrumText } from "@halflap/board/strum-text";
import { assert, ticks } from "@halflap/theory/units";
import { timelineOf } from "@halflap/timeline/passages";
import type { EngineOptions } from "../engine.ts";
import { type Performance, performanceOf, wholeTune } from "../performance.ts";
import type { Part } from "../play-event.ts";

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

/** The board with grips in the order of its slots in one lane, all struck in one pattern. */
export function gripped(
  board: Board,
  lane: LaneId,
  grips: string,
  steps?: string,
  step = 24,
): Board {
  const slots = board.sections.flatMap(({ bars }) => bars.flatMap((bar) => bar.slots));
  const each = grips.split(" ");
  const chosen = slots.map(({ id }, index): LaneEdit => {
    return { kind: "grip", slot: id, grip: each[index % each.length] ?? "" };
  });
  if (steps === undefined) return editedBoard(board, lane, chosen);
  const read = parseStrumText(steps);
  assert(read.ok, `no pattern: ${steps}`);
  const id = strumId(`all-${lane}`);
  const plain = { id, name: "all", feel: "board", palmMute: false } as const;
  const strum = { ...plain, step: ticks(step), steps: read.value };
  return editedBoard(board, lane, [
    ...chosen,
    { kind: "strum", strum },
    { kind: "strum-at", place: { kind: "lane" }, strum: id },
  ]);
}

/** The board with one lane palm-muted throughout. */
export function muted(board: Board, lane: LaneId): Board {
  const bars = board.sections.flatMap((section) => section.bars);
  const palmMutes = new Set(bars.map(({ id }) => id));
  return { ...board, lanes: { ...board.lanes, [lane]: { ...board.lanes[lane], palmMutes } } };
}

/** A mix in which only these are heard. */
export function only(...heard: readonly Part[]): EngineOptions {
  const of = (part: Part) => ({ level: 1, isMuted: !heard.includes(part) });
  const [upper, lower, bass] = [of("upper"), of("lower"), of("bass")];
  const mix = { upper, lower, bass, drums: of("drums"), click: of("click") };
  return { mix: { ...mix, "count-in": of("count-in") }, seed: 1 };
}

/** A board played once, or as asked. */
export function played(
  board: Board,
  more: Partial<Parameters<typeof performanceOf>[2]> = {},
): Performance {
  const timeline = timelineOf(board);
  return performanceOf(board, timeline, { ...wholeTune(board, timeline), ...more });
}
