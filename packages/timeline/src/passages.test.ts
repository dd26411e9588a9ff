/** Passages and passes: what is shared, what is kept apart, and what is remembered. */
import type { Board } from "@halflap/board/board";
import { editedBoard } from "@halflap/board/edited-board";
import { expect, test } from "vitest";
import { makeTimeline, timelineOf } from "./passages.ts";
import {
  barOf,
  charted,
  gripped,
  pattern,
  slotsOf,
  strummed,
} from "./test-support/played-board.ts";

const song = charted(
  "A tune\nF, 100\n\nA\n| F7 | C7 |\n\nB\n| D7 |\n\nC\n| G7 |\n\nForm: A, B, A x2",
);
const played = strummed(gripped(song, "x-x-3-2-4-x x-x-2-3-1-x x-x-4-5-3-x"), pattern("D.D."));

function entryAt(board: Board, index: number) {
  const entry = board.form[index];
  if (entry === undefined) throw new Error(`no form entry ${index}`);
  return entry;
}

test("S7 passes follow the form, each from where the one before ended", () => {
  const { passes, length } = timelineOf(song);
  expect(passes.map(({ passage, start, round }) => [passage.section.name, start, round])).toEqual([
    ["A", 0, 1],
    ["B", 384, 1],
    ["A", 576, 1],
    ["A", 960, 2],
  ]);
  expect(length).toBe(1344);
});

test("S7 rounds that do not differ share a passage; a section outside the form has one too", () => {
  const { passages, passes } = timelineOf(song);
  expect(passages.map(({ section }) => section.name)).toEqual(["A", "B", "C"]);
  expect(passes[0]?.passage).toBe(passes[3]?.passage);
  expect(passages[0]?.next.map((id) => song.sections.find((one) => one.id === id)?.name)).toEqual([
    "B",
    "A",
  ]);
});

test("S3 S7 a section without bars stands in the form and follows nothing", () => {
  const board = gripped(
    charted("A tune\nF, 100\n\nA\n| F7 |\n\nE\n\nB\n| C7 |\n\nE 2"),
    "x-x-3-2-4-x x-x-2-3-1-x",
  );
  const { passes } = timelineOf(strummed(board, pattern("......~U")));
  const [a, e, b, last] = board.sections.map(({ id }) => id);
  expect(passes.map(({ passage }) => passage.section.id)).toEqual([a, e, b, last]);
  expect(passes.map(({ passage }) => passage.next)).toEqual([[b], [b], [], []]);
  expect(passes.map(({ passage }) => passage.endsTune)).toEqual([false, false, true, true]);
  const pushed = passes[0]?.passage.bars[0]?.lanes.lower.attacks[0];
  expect(pushed?.slot).toBe(slotsOf(board)[1]);
});

test("S3 S7 a push at a section's end sounds what follows in each pass, or at last its own", () => {
  const chart = "A tune\nF, 100\n\nVerse\n| F7 |\n\nChorus\n| Bb7 |\n\nForm: Verse x2, Chorus x2";
  const board = gripped(charted(chart), "x-x-3-2-4-x x-x-2-3-1-x");
  const [verse, chorus] = slotsOf(board);
  const ends = (steps: string) => {
    const { passages, passes } = timelineOf(strummed(board, pattern(steps)));
    const last = ({ passage }: (typeof passes)[number]) =>
      passage.bars[0]?.lanes.lower.attacks.at(-1)?.slot;
    return [passages.length, ...passes.map(last)];
  };
  expect(ends("D.D.D..~U")).toEqual([4, verse, chorus, chorus, chorus]);
  expect(ends("D.D.D..U")).toEqual([2, verse, verse, chorus, chorus]);
  // A push inside the section needs no passage of its own, nor does one of a lane that rests.
  const two = gripped(charted("A tune\nF, 100\n\nA\n| F7 C7 |\n\nForm: A x3"), "x-x-3-2-4-x");
  const inside = strummed(two, pattern("D..~UD..."));
  expect(timelineOf(inside).passages).toHaveLength(1);
  const pushed = strummed(two, pattern("D......~U"));
  expect(timelineOf(pushed).passages).toHaveLength(2);
  const rest = { kind: "lay-out", bar: barOf(two, 1), rest: true } as const;
  expect(timelineOf(editedBoard(pushed, "lower", [rest])).passages).toHaveLength(1);
});

test("S7 a pass in which a lane rests is a passage of its own", () => {
  const edit = { kind: "rest-pass", entry: entryAt(played, 0).id, rest: true } as const;
  const { passages, passes } = timelineOf(editedBoard(played, "upper", [edit]));
  expect(passages.map(({ section }) => section.name)).toEqual(["A", "A", "B", "C"]);
  expect(passes.map(({ passage }) => passage.bars[0]?.lanes.upper.rests)).toEqual([
    true,
    false,
    false,
    false,
  ]);
});

test("S7 the nearest pattern counts: the pass, then the bar, the section, the lane", () => {
  const [byPass, byBar, bySection] = ["D...", ".D..", "..D."].map((text) => pattern(text));
  if (byPass === undefined || byBar === undefined || bySection === undefined) throw new Error();
  const [a] = played.sections;
  if (a === undefined) throw new Error("a chart has a section");
  const sectionOnly = editedBoard(played, "lower", [
    { kind: "strum", strum: bySection },
    { kind: "strum-at", place: { kind: "section", section: a.id }, strum: bySection.id },
  ]);
  const withBar = editedBoard(sectionOnly, "lower", [
    { kind: "strum", strum: byBar },
    { kind: "strum-at", place: { kind: "bar", bar: barOf(played, 1) }, strum: byBar.id },
  ]);
  const entry = entryAt(played, 0).id;
  const withPass = editedBoard(withBar, "lower", [
    { kind: "strum", strum: byPass },
    { kind: "strum-at", place: { kind: "pass", entry }, strum: byPass.id },
  ]);
  const names = (board: Board) =>
    timelineOf(board).passes.map(({ passage }) =>
      passage.bars.map(({ lanes }) => lanes.lower.strum?.name),
    );
  const lane = ["D.D."];
  expect(names(played)[0]).toEqual(["D.D.", "D.D."]);
  expect(names(sectionOnly).slice(0, 2)).toEqual([["..D.", "..D."], lane]);
  expect(names(withBar)[0]).toEqual([".D..", "..D."]);
  expect(names(withPass)).toEqual([["D...", "D..."], lane, [".D..", "..D."], [".D..", "..D."]]);
});

test("S7 an ending is played in its rounds only, and makes passages of their own", () => {
  const sections = played.sections.map((section) => ({
    ...section,
    bars: section.bars.map((bar) => (bar.number === 2 ? { ...bar, rounds: [1] } : bar)),
  }));
  const { passes } = timelineOf({ ...played, sections });
  expect(passes.map(({ passage }) => passage.bars.map(({ bar }) => bar.number))).toEqual([
    [1, 2],
    [3],
    [1, 2],
    [1],
  ]);
});

test("S7 loudness goes on to the next mark, not beyond the section", () => {
  const marked = editedBoard(played, "lower", [
    { kind: "dynamic", bar: barOf(played, 1), dynamic: "p" },
  ]);
  const { passages } = timelineOf(marked);
  const loud = passages.map(({ bars }) => bars.map(({ lanes }) => lanes.lower.dynamic));
  expect(loud).toEqual([["p", "p"], [undefined], [undefined]]);
});

test("S17 what did not change since the last board is the same object", () => {
  const timeline = makeTimeline();
  const before = timeline(played);
  const slot = slotsOf(played)[1];
  if (slot === undefined) throw new Error("a chart has slots");
  const after = timeline(
    editedBoard(played, "lower", [{ kind: "grip", slot, grip: "x-3-2-3-x-x" }]),
  );
  expect(after.passages[1]).toBe(before.passages[1]);
  expect(after.passages[0]).not.toBe(before.passages[0]);
  expect(after.passages[0]?.bars[1]?.lanes.upper).toBe(before.passages[0]?.bars[1]?.lanes.upper);
  expect(after.passages[0]?.bars[1]?.lanes.lower).not.toBe(
    before.passages[0]?.bars[1]?.lanes.lower,
  );
});
