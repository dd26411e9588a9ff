/** What is asked is a bar line a little ahead, whatever is changed and wherever it stands. */
import type { SharedPlay } from "@halflap/wire/together";
import { describe, expect, test } from "vitest";
import { barAt, board } from "../test-support/rehearsal.ts";
import { againAsk, jumpAsk, leadMs, startAsk, turnAsk } from "./asks.ts";
import { courseOf } from "./course.ts";
import { comingBar, outlineOf, placeAt } from "./shared-place.ts";

const course = courseOf(board, undefined);
/** 4/4: a bar has 192 ticks. */
const barMs = 192 * course.msPerTick;
const same = { before: course, after: course };
const empty = { bars: [], msPerTick: 1 };
const now = 1_000_000;
const play: SharedPlay = {
  kind: "playing",
  tick: 0,
  atMs: now,
  percent: 100,
  countIn: 0,
  loop: undefined,
};
const verse = board.sections.find(({ name }) => name === "Verse");
if (!verse) throw new Error("no verse");
const loop = { kind: "section", section: verse.id } as const;

const barOf = (ask: SharedPlay | undefined) =>
  course.bars.findIndex(({ start }) => start === ask?.tick);
const where = (wish: SharedPlay, atMs: number) => {
  const outline = outlineOf(course, wish);
  if (!outline) throw new Error("nothing is played");
  const place = placeAt(outline, atMs);
  return typeof place === "string" ? place : place.index;
};

describe("a start", () => {
  test("names the bar, after the lead and the count-in", () => {
    const ask = startAsk(course, { bar: barAt(6), loop: undefined, percent: 50, countIn: 2 }, now);
    expect(barOf(ask)).toBe(6);
    expect(ask?.atMs).toBeCloseTo(now + leadMs + 2 * 2 * barMs, 6);
    expect(ask).toMatchObject({ percent: 50, countIn: 2 });
  });

  test("outside of what goes round begins where that does", () => {
    const start = { loop, percent: 100, countIn: 0 };
    expect(barOf(startAsk(course, { ...start, bar: barAt(0) }, now))).toBe(4);
    expect(barOf(startAsk(course, { ...start, bar: barAt(7) }, now))).toBe(7);
  });

  test("on an empty board is none", () => {
    const start = { bar: undefined, loop: undefined, percent: 100, countIn: 0 };
    expect(startAsk(empty, start, now)).toBeUndefined();
  });
});

describe("where it stands", () => {
  test("before, in a bar, in a round, over", () => {
    expect(where(play, now - 1)).toBe("before");
    expect(where(play, now + 3.5 * barMs)).toBe(3);
    expect(where(play, now + 1e9)).toBe("over");
    const round = { ...play, tick: course.bars[4]?.start ?? 0, loop };
    expect(where(round, now + 7.5 * barMs)).toBe(11);
    expect(where(round, now + 8.5 * barMs)).toBe(4);
    expect(where(round, now + 8_003.5 * barMs)).toBe(7);
  });

  test("the coming bar is the first at or after a moment, round after round", () => {
    const outline = outlineOf(course, { ...play, tick: course.bars[4]?.start ?? 0, loop });
    const coming = outline && comingBar(outline, now + 7.2 * barMs);
    expect(coming?.index).toBe(4);
    expect(coming?.atMs).toBeCloseTo(now + 8 * barMs, 6);
  });
});

describe("a change while it plays", () => {
  const later = now + 2.2 * barMs;

  test("another tempo holds from the next bar line on", () => {
    const ask = turnAsk(same, play, { percent: 80 }, later);
    expect(barOf(ask)).toBe(3);
    expect(ask?.atMs).toBeCloseTo(now + 3 * barMs, 6);
    expect(ask?.percent).toBe(80);
  });

  test("a bar line that is too near is left alone", () => {
    const near = now + 3 * barMs - leadMs / 2;
    expect(barOf(turnAsk(same, play, { percent: 80 }, near))).toBe(4);
  });

  test("a second change before the first holds keeps its moment, and a count-in", () => {
    const first = turnAsk(same, play, { percent: 80 }, later);
    if (!first) throw new Error("no ask");
    const second = turnAsk(same, first, { percent: 75 }, later);
    expect(second).toEqual({ ...first, percent: 75 });
    const counted = { ...play, atMs: now + 5_000, countIn: 2 };
    expect(turnAsk(same, counted, { percent: 90 }, now)).toEqual({ ...counted, percent: 90 });
  });

  test("what goes round is gone to after this bar, and left where it is", () => {
    expect(barOf(turnAsk(same, play, { loop }, later))).toBe(4);
    const round = { ...play, tick: course.bars[4]?.start ?? 0, loop };
    const straight = turnAsk(same, round, { loop: undefined }, now + 9.2 * barMs);
    expect(barOf(straight)).toBe(6);
    expect(straight?.loop).toBeUndefined();
  });

  test("a jump comes at the bar line; what goes round elsewhere goes round no more", () => {
    const ask = jumpAsk(course, { ...play, loop }, barAt(1), later);
    expect(barOf(ask)).toBe(1);
    expect(ask?.loop).toBeUndefined();
    expect(jumpAsk(course, { ...play, loop }, barAt(6), later)?.loop).toEqual(loop);
  });

  test("when it is over there is no next bar", () => {
    expect(turnAsk(same, play, { percent: 80 }, now + 1e9)).toBeUndefined();
  });
});

describe("the board changes while it plays", () => {
  const later = now + 5.2 * barMs;
  const [intro, ...others] = board.sections;
  if (!intro) throw new Error("no intro");

  test("bars that went before move nothing: the next bar comes when it would have", () => {
    const shorter = { ...board, sections: [{ ...intro, bars: intro.bars.slice(1) }, ...others] };
    const after = courseOf(shorter, undefined);
    const ask = turnAsk({ before: course, after }, play, {}, later);
    expect(ask?.atMs).toBeCloseTo(now + 6 * barMs, 6);
    expect(after.bars.find(({ start }) => start === ask?.tick)?.bar).toBe(barAt(6));
  });

  test("another tempo of the board holds from there on", () => {
    const after = courseOf({ ...board, tempo: board.tempo * 2 }, undefined);
    const ask = turnAsk({ before: course, after }, play, {}, later);
    expect(ask?.atMs).toBeCloseTo(now + 6 * barMs, 6);
    expect(barOf(ask)).toBe(6);
  });

  test("an empty board can't go on", () => {
    expect(turnAsk({ before: course, after: empty }, play, {}, later)).toBeUndefined();
  });
});

test("what one browser played by itself is told by the server's clock, from a bar line", () => {
  const outline = outlineOf(course, { ...play, atMs: 50 });
  if (!outline) throw new Error("nothing is played");
  const ask = againAsk(outline, { ...play, percent: 100 }, 50 + 2.2 * barMs, (ms) => ms + 7_000);
  expect(barOf(ask)).toBe(3);
  expect(ask?.atMs).toBeCloseTo(7_050 + 3 * barMs, 6);
});
