/**
 * Beside the button stands why it can't be pressed, and the reason is the right one.
 *
 * @vitest-environment jsdom
 */
import type { Board } from "@halflap/board/board";
import { usualWishes } from "@halflap/board/wishes";
import { cleanup, render } from "@solidjs/testing-library";
import { afterEach, expect, test, vi } from "vitest";
import type { Desk } from "../board/desk.ts";
import { createPreview } from "../board/preview.ts";
import { makeLiveBoard } from "../session/follow.ts";
import { createFitting, type FitState } from "./create-fitting.ts";
import { RunLine } from "./RunLine.tsx";
import { demoBoard } from "./test-support/answers.ts";

const opened = vi.hoisted(() => ({ desk: undefined as unknown }));
vi.mock("../board/desk.ts", () => ({ useDesk: () => opened.desk }));

afterEach(cleanup);

const demo = demoBoard();
const [first, ...others] = demo.sections;
if (first === undefined) throw new Error("the demo has sections");
const { upper, lower } = demo.lanes;
const still = { ...lower, wishes: { ...usualWishes, leaveAsIs: true } };

test.each<[string, Partial<Board>, string]>([
  ["without bars", { sections: [{ ...first, bars: [] }, ...others] }, "There are no bars"],
  ["that was removed", { sections: others }, "Pick a section"],
  ["of a part that stays as it is", { lanes: { upper, lower: still } }, "Nothing may change"],
])("a section %s", (_, change, words) => {
  const live = makeLiveBoard(demo);
  const made: { fit?: FitState } = {};
  const { getByRole } = render(() => {
    const session = { board: live.board, feed: () => () => {}, ownLane: () => "lower" };
    opened.desk = { session, ...createPreview() };
    const fit = createFitting(opened.desk as Desk, () => true);
    made.fit = fit;
    return <RunLine fit={fit} />;
  });
  made.fit?.change({ sections: new Set([first.id]) });
  expect(getByRole("status").textContent).toBe("");
  live.follow({ ...demo, ...change });
  expect(getByRole("status").textContent).toContain(words);
  expect(getByRole("button").getAttribute("aria-disabled")).toBe("true");
});
