/** Where the tune stands is said anew as the board is by then, and not as it was in between. */
import type { SharedPlay } from "@halflap/wire/together";
import { createRoot, createSignal } from "solid-js";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { board } from "../test-support/rehearsal.ts";
import { followBoard } from "./board-changes.ts";
import type { Bond } from "./bond.ts";
import { courseOf, type Timed } from "./course.ts";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const now = 1_000_000;
const play: SharedPlay = {
  kind: "playing",
  tick: 0,
  atMs: now,
  percent: 100,
  countIn: 0,
  loop: undefined,
};
/** The first section has lost its first bar. */
const shorter: Timed = {
  ...board,
  sections: board.sections.map((section, index) =>
    index === 0 ? { ...section, bars: section.bars.slice(1) } : section,
  ),
};
const atMs = now + 5 * 192 * courseOf(board, undefined).msPerTick;

function playing() {
  const [timed, setTimed] = createSignal<Timed>(board);
  const asked: (SharedPlay | undefined)[] = [];
  const drifted: number[] = [];
  const me = "ada";
  const bond = {
    session: { me: () => ({ id: me }) },
    told: () => ({ kind: "word", revision: 1, by: me, wish: play }),
    word: () => ({ revision: 1, play }),
    timed,
    nowThere: () => atMs,
    isMeeting: () => true,
    ask: (wish: SharedPlay | undefined) => asked.push(wish) > 0,
  };
  createRoot(() => followBoard(bond as unknown as Bond, (revision) => void drifted.push(revision)));
  return { setTimed, asked, drifted };
}

test("a bar that is gone moves what follows it", () => {
  const { setTimed, asked, drifted } = playing();
  setTimed(shorter);
  expect(drifted).toEqual([1]);
  vi.runAllTimers();
  const bar = courseOf(shorter, undefined).bars[5];
  expect(asked).toMatchObject([{ tick: bar?.start }]);
});

test("a bar that is back by then moves nothing", () => {
  const { setTimed, asked } = playing();
  setTimed(shorter);
  setTimed(board);
  vi.runAllTimers();
  const bar = courseOf(board, undefined).bars[6];
  expect(asked).toMatchObject([{ tick: bar?.start }]);
});
