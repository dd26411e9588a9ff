/** What rules about neighbouring bars keep, and when they ask again. */
import type { Board } from "@halflap/board/board";
import { slotId } from "@halflap/board/ids";
import { gripOf } from "@halflap/theory/grip";
import { fret } from "@halflap/theory/units";
import { makeTimeline } from "@halflap/timeline/passages";
import { expect, test } from "vitest";
import { barByBar } from "./bar-by-bar.ts";
import { bars, type Played, smallBoard } from "./test-support/small-board.ts";
import { makePreparation } from "./tune.ts";

test("a bar is asked again when it, the next one or the frame changed, and only then", () => {
  const prepare = makePreparation();
  const timelineOf = makeTimeline();
  const asked: string[] = [];
  const rule = barByBar((bar) => {
    asked.push(bar.played.bar.id);
    return [];
  });
  const ask = (board: Board) => {
    asked.length = 0;
    const { passages, tune } = prepare(board, timelineOf(board));
    for (const passage of passages) rule(passage, tune);
    return [...asked];
  };
  const played = ["x-3-2-0-1-0", "1-3-3-2-1-1", "x-3-2-0-1-0", "3-2-0-0-0-3"].map(
    (grip): Played => ["N.C.", "-", grip],
  );
  const board = smallBoard({ sections: bars(...played) });
  const { lower } = board.lanes;
  const grips = new Map(lower.grips).set(slotId("s4"), gripOf([3, 2, 0, 0, 0, 1].map(fret)));
  const other = { ...board, lanes: { ...board.lanes, lower: { ...lower, grips } } };
  const all = ["b1", "b2", "b3", "b4"];
  expect(ask(board)).toEqual(all);
  expect(ask(board)).toEqual([]);
  // The bar before the new grip could push into it, so it is a new bar too.
  expect(ask(other)).toEqual(["b2", "b3", "b4"]);
  expect(ask({ ...other, tempo: 120 })).toEqual(all);
});
