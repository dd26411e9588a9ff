/** One anchor says where everything lies, and back again. */
import type { BarId, FormEntryId, SectionId } from "@halflap/board/board";
import { ticks } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { heardAt } from "./heard.ts";
import type { BarOfPlay } from "./order-of-play.ts";
import { momentAt, type Plan, runningStart, sampleAt, tickAt } from "./play-clock.ts";

/** Three bars of 4/4 and one of 2/4: 48 ticks a quarter. */
const lengths = [192, 192, 96, 192];
const bars = lengths.map((length, index): BarOfPlay => {
  const start = ticks(lengths.slice(0, index).reduce((sum, each) => sum + each, 0));
  const strokes = { upper: [ticks(0), ticks(48)], lower: [ticks(24)] };
  const ids = { bar: `b${index}` as BarId, section: "s" as SectionId, entry: "e" as FormEntryId };
  return { ...ids, round: 1, start, length: ticks(length), strokes };
});
/** 100.3 samples a tick: nothing comes out even. */
const anchor = { sample: 5000, tick: 192, samplesPerTick: 100.3 };
const once: Plan = { bars, stretch: { first: 0, last: 3, loops: false }, anchor };
const round: Plan = { bars, stretch: { first: 1, last: 2, loops: true }, anchor };

test("ticks and samples lead back to each other", () => {
  for (const tick of [192, 193, 480, 99_999]) {
    expect(tickAt(anchor, sampleAt(anchor, tick))).toBeCloseTo(tick, 1);
  }
});

test.each([
  [4999, undefined],
  [5000, { index: 1, round: 0 }],
  [5000 + 191 * 100, { index: 1, round: 0 }],
  [5000 + 193 * 101, { index: 2, round: 0 }],
  [5000 + 300 * 101, { index: 3, round: 0 }],
  [5000 + 481 * 101, undefined],
])("at sample %i of a tune played once", (sample, where) => {
  const moment = momentAt(once, sample);
  expect(moment && { index: moment.index, round: moment.round }).toEqual(where);
});

test("a thousand rounds begin where the anchor says, to the sample", () => {
  for (let turn = 0; turn < 1000; turn += 1) {
    const start = sampleAt(anchor, runningStart(round, { index: 1, round: turn }));
    expect(start).toBe(Math.round(5000 + turn * 288 * 100.3));
    expect(momentAt(round, start + 1)).toMatchObject({ index: 1, round: turn });
    const before = turn === 0 ? undefined : { index: 2, round: turn - 1 };
    const moment = momentAt(round, start - 1);
    expect(moment && { index: moment.index, round: moment.round }).toEqual(before);
  }
});

test("the last stroke of each lane is heard as a part of its bar", () => {
  const at = (tick: number) => heardAt(once, sampleAt(anchor, 192 + tick) + 1)?.strokes;
  expect(at(0)).toEqual({ upper: 0, lower: undefined });
  expect(at(30)).toEqual({ upper: 0, lower: 24 / 192 });
  expect(at(100)).toEqual({ upper: 48 / 192, lower: 24 / 192 });
  // The short bar: parts of its own length.
  expect(at(192 + 60)).toEqual({ upper: 48 / 96, lower: 24 / 96 });
});
