/** What a lane plays in a bar: patterns, pushes, chokes and the fills in their place. */
import type { Board } from "@halflap/board/board";
import { editedBoard } from "@halflap/board/edited-board";
import { ticks } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { timelineOf } from "./passages.ts";
import {
  barOf,
  charted,
  filled,
  fillNote,
  gripped,
  pattern,
  slotsOf,
  strummed,
} from "./test-support/played-board.ts";

function lowerBars(board: Board) {
  return (timelineOf(board).passages[0]?.bars ?? []).map(({ lanes }) => lanes.lower);
}

const places = (board: Board) => lowerBars(board).map(({ attacks }) => attacks.map(({ at }) => at));

const grips = "x-x-3-2-4-x x-x-4-5-3-x";

test("S1 without a pattern each grip is struck where its slot starts, and held", () => {
  const board = gripped(charted("| F7 . D7 . | F7 |"), grips);
  expect(places(board)).toEqual([[0, 96], []]);
  expect(lowerBars(board)[0]?.attacks[0]).toMatchObject({ kind: "stroke", strum: undefined });
});

test("S1 a pattern starts with every bar, and goes round in a longer one", () => {
  const board = gripped(charted("| F7 | 2/4 F7 |"), grips);
  expect(places(strummed(board, pattern("D.D.")))).toEqual([
    [0, 48, 96, 144],
    [0, 48],
  ]);
  expect(places(strummed(board, pattern("...D...D")))).toEqual([[72, 168], [72]]);
  expect(places(strummed(board, pattern("D..", { step: ticks(48) })))[0]).toEqual([0, 144]);
});

test("S2 strokes are heard where the feel puts them, and written where they are", () => {
  const swing = gripped(charted("A tune\nF, 100, swing\n\nA\n| F7 |"), "x-x-3-2-4-x");
  const [bar] = lowerBars(strummed(swing, pattern("DUx.....")));
  expect(bar?.attacks.map(({ at, sounds }) => [at, sounds])).toEqual([
    [0, 0],
    [24, 32],
  ]);
  const [late] = lowerBars(strummed(swing, pattern("D..x....")));
  expect(late?.chokes).toEqual([80]);
});

test("S2 another swing moves strokes and chokes alone; straight patterns and bars stay", () => {
  const swing = gripped(charted("A tune\nF, 100, swing\n\nA\n| F7 | F7 |"), "x-x-3-2-4-x -");
  const even = strummed(swing, pattern("DUDx...."));
  const bars = (board: Board, long: number) => {
    const { passages, length } = timelineOf(board, ticks(long));
    const lower = passages[0]?.bars[0]?.lanes.lower;
    return [lower?.attacks.map(({ sounds }) => sounds), lower?.chokes, length];
  };
  expect(bars(even, 36)).toEqual([[0, 36, 48], [84], 384]);
  expect(bars(even, 24)).toEqual([[0, 24, 48], [72], 384]);
  const own = strummed(swing, pattern("DUDx....", { feel: "straight" }));
  expect(bars(own, 36)).toEqual([[0, 24, 48], [72], 384]);
});

const swungBar = charted("A tune\nF, 100, swing\n\nA\n| F7 |");

/** Where the attacks of the first bar's first quarter are written and heard: "24>32". */
function firstQuarter(board: Board): string {
  const attacks = lowerBars(board)[0]?.attacks.filter(({ at }) => at < 48) ?? [];
  return attacks.map(({ at, sounds }) => `${at}>${sounds}`).join(" ");
}

test.each([
  ["thirty-seconds", 6, "DUDUDUDU", "0>0 6>6 12>12 18>18 24>24 30>30 36>36 42>42"],
  ["sextuplets", 8, "DUDUDU", "0>0 8>8 16>16 24>24 32>32 40>40"],
  ["thirty-seconds that keep clear", 6, "D.UU....", "0>0 12>16 18>18"],
  ["an eighth among thirty-seconds", 6, "D...U...", "0>0 24>32"],
  ["sixteenths", 12, "DUDU", "0>0 12>16 24>32 36>40"],
  ["triplets", 16, "DUD", "0>0 16>16 32>32"],
])("S2 strokes neither meet nor change places: %s", (_, step, text, wanted) => {
  const board = gripped(swungBar, "x-x-3-2-4-x");
  expect(firstQuarter(strummed(board, pattern(text, { step: ticks(step) })))).toBe(wanted);
});

test.each([
  ["0>0 24>24 30>30 36>36", [0, 24, 30, 36]],
  ["0>0 24>24 32>32", [0, 24, 32]],
  ["0>0 24>32 45>45", [0, 24, 45]],
])("S2 nor do the notes of a fill: %s", (wanted, starts) => {
  const notes = starts.map((start, i) => fillNote(start, (starts[i + 1] ?? 48) - start, "2:8"));
  expect(firstQuarter(filled(swungBar, { bar: 1, start: 0, length: 48 }, notes))).toBe(wanted);
});

test("S2 nor do a stroke and the fill that begins after it", () => {
  const board = strummed(gripped(swungBar, "x-x-3-2-4-x"), pattern("DU"));
  const place = { bar: 1, start: 30, length: 18 };
  expect(firstQuarter(filled(board, place, [fillNote(0, 18, "2:8")]))).toBe("0>0 24>24 30>30");
});

test("S3 a push sounds the next slot, in the bar, over the bar line and round the section", () => {
  const board = gripped(charted("| F7 . D7 . |"), grips);
  const [bar] = lowerBars(strummed(board, pattern("D..~UD..~U")));
  const [first, second] = slotsOf(board);
  expect(bar?.attacks.map(({ slot }) => slot)).toEqual([first, second, second, second]);
  const twice = { ...board, form: board.form.map((entry) => ({ ...entry, times: 2 })) };
  const [again] = lowerBars(strummed(twice, pattern("D..~UD..~U")));
  expect(again?.attacks.map(({ slot }) => slot)).toEqual([first, second, second, first]);
});

test("S3 a push before an ending sounds the bar that is played next", () => {
  const chart = charted("A tune\nF, 100\n\nA\n| F7 |\n\nB\n| C7 | D7 |\n\nForm: A, B");
  const board = gripped(chart, "x-x-3-2-4-x x-x-2-3-1-x x-x-4-5-3-x");
  const sections = board.sections.map((section) => ({
    ...section,
    bars: section.bars.map((bar) => (bar.number === 2 ? { ...bar, rounds: [2] } : bar)),
  }));
  const [bar] = lowerBars(strummed({ ...board, sections }, pattern("D......~U")));
  expect(bar?.attacks[1]?.slot).toBe(slotsOf(board)[2]);
});

test("S4 a slot without a grip sounds nothing; a ghost stroke has no notes", () => {
  expect(places(strummed(gripped(charted("| F7 |"), "-"), pattern("D.d.")))).toEqual([[]]);
  const [bar] = lowerBars(strummed(gripped(charted("| F7 |"), "x-x-3-2-4-x"), pattern("d...")));
  expect(bar?.attacks[0]?.notes).toEqual([]);
});

test("S5 a fill stands in the place of strokes and chokes, into the next bar too", () => {
  const board = strummed(gripped(charted("| F7 | F7 |"), "x-x-3-2-4-x x-x-3-2-4-x"), pattern("Dx"));
  const notes = [fillNote(0, 24, "2:8"), fillNote(72, 24, "1:8")];
  const [one, two] = lowerBars(filled(board, { bar: 1, start: 144, length: 96 }, notes));
  expect(one?.attacks.map(({ at, kind }) => `${kind} ${at}`)).toEqual([
    "stroke 0",
    "stroke 48",
    "stroke 96",
    "note 144",
  ]);
  expect(one?.chokes).toEqual([24, 72, 120]);
  expect(two?.attacks[0]).toMatchObject({ kind: "note", at: 24 });
  expect(two?.attacks[1]).toMatchObject({ kind: "stroke", at: 48 });
  expect(one?.figures.map(({ start, end }) => [start, end])).toEqual([[144, 192]]);
  expect(two?.figures.map(({ start, end }) => [start, end])).toEqual([[0, 48]]);
});

test("S6 a lane that lays out plays nothing, neither strokes nor fills", () => {
  const board = filled(
    gripped(charted("| F7 |"), "x-x-3-2-4-x"),
    { bar: 1, start: 96, length: 96 },
    [fillNote(0, 24, "2:8")],
  );
  const resting = editedBoard(board, "lower", [
    { kind: "lay-out", bar: barOf(board, 1), rest: true },
  ]);
  expect(lowerBars(resting)[0]).toMatchObject({ rests: true, attacks: [], figures: [] });
});
