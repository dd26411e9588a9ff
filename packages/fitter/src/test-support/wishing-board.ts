/** Boards written as chart text, with grips and wishes in the upper lane, for tests. */
import type { Board, Lane } from "@halflap/board/board";
import { draftCopy, parseChartText } from "@halflap/board/chart-text";
import { fillDocuments } from "@halflap/board/copy";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { type LaneWishes, usualWishes } from "@halflap/board/wishes";
import { decodeGrip, type Grip } from "@halflap/theory/grip";

/** The board of a chart; bars and slots have ids of their own in no particular order. */
export function boardOfChart(text: string): Board {
  const { draft, problems } = parseChartText(text);
  if (draft === undefined) throw new Error(problems.map(({ read }) => read).join(", "));
  const documents = emptyDocuments();
  let count = 0;
  const makeId = () => {
    count += 1;
    return `n${count}`;
  };
  fillDocuments(documents, draftCopy(draft, makeId));
  return makeReader(documents)();
}

/** The board with a grip of the upper lane in each slot, in chart order; "-" = none. */
export function withGrips(board: Board, ...texts: readonly string[]): Board {
  const slots = board.sections.flatMap(({ bars }) => bars.flatMap((bar) => bar.slots));
  const grips = slots.flatMap(({ id }, index) => {
    const text = texts[index] ?? "-";
    return text === "-" ? [] : [[id, gripFrom(text)] as const];
  });
  return withUpper(board, { grips: new Map(grips) });
}

/** The board with these wishes of the upper lane, all others the usual ones. */
export function wishing(board: Board, wishes: Partial<LaneWishes>): Board {
  return withUpper(board, { wishes: { ...usualWishes, ...wishes } });
}

/** The board with other things in its upper lane. */
export function withUpper(board: Board, change: Partial<Lane>): Board {
  return { ...board, lanes: { ...board.lanes, upper: { ...board.lanes.upper, ...change } } };
}

/** The grip of a text that is known to be one. */
export function gripFrom(text: string): Grip {
  const grip = decodeGrip(text);
  if (grip === undefined) throw new Error(`no grip: ${text}`);
  return grip;
}
