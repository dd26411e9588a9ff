/** Made whole: which grips may come where the answer's own leave something that blocks playing. */
import type { Board, LaneId } from "@halflap/board/board";
import { barId, slotId } from "@halflap/board/ids";
import { bars, smallBoard } from "@halflap/checker/test-support/small-board";
import { expect, test } from "vitest";
import type { FitRequest } from "./answer.ts";
import { fit } from "./fit.ts";
import { mended } from "./mended.ts";
import { plainMinPlus } from "./solver/plain-min-plus.ts";

/** The lower lane's second grip is none of C7: only another grip mends it. */
const good = ["C7", "x-x-x-9-8-x", "x-x-2-3-1-x"] as const;
const bad = ["C7", "x-x-x-9-8-x", "x-x-3-2-4-x"] as const;
const board = smallBoard({ sections: bars(good, bad, good, good) });
const asked: FitRequest = { lanes: ["lower"], leaning: "plain", answers: 1, bars: undefined };

/** The slots that get another grip when the upper part, fitted beside this, is made whole. */
function regripped(on: Board, request: Partial<FitRequest>): readonly string[] {
  const upper: FitRequest = { ...asked, lanes: ["upper"], bars: [barId("b1")] };
  const found = fit(on, upper, { minPlus: plainMinPlus });
  const [answer] = found.kind === "answers" ? found.answers : [];
  if (answer === undefined) throw new Error("an answer");
  return mended(on, answer, { ...asked, ...request }).changes.flatMap(({ edits }) =>
    edits.flatMap((edit) => (edit.kind === "grip" ? [edit.slot] : [])),
  );
}

function wishing(lane: LaneId, wishes: Partial<Board["lanes"]["lower"]["wishes"]>): Board {
  const here = board.lanes[lane];
  const changed = { ...here, wishes: { ...here.wishes, ...wishes } };
  return { ...board, lanes: { ...board.lanes, [lane]: changed } };
}

test("F33 another grip comes where it was asked for", () => {
  expect(regripped(board, {})).toEqual(["s2"]);
  expect(regripped(board, { lanes: ["upper"] })).toEqual([]);
  expect(regripped(board, { bars: [barId("b1")] })).toEqual([]);
});

test("F33 no grip that is locked goes, and none comes that the wishes keep out", () => {
  const locked = new Set([slotId("s2")]);
  expect(regripped(wishing("lower", { locked }), {})).toEqual([]);
  expect(regripped(wishing("lower", { stringSets: [[2, 1]] }), {})).toEqual([]);
});
