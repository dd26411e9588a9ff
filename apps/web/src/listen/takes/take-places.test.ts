/** Where a take sounds: worked out by hand at 120 beats a minute, 48,000 samples a second. */
import { barId, formEntryId, sectionId } from "@halflap/board/ids";
import { commonTime } from "@halflap/board/meter";
import type { TakeHead } from "@halflap/board/take";
import { ticks } from "@halflap/theory/units";
import { expect, test } from "vitest";
import type { Plan } from "../play-clock.ts";
import { takePlaces } from "./take-places.ts";

/** At 120, a bar of four beats lasts 2 s. */
const second = 48_000;
const bar = 2 * second;
const room = { meter: commonTime, sampleRate: second };
const samplesPerTick = bar / 192;

function planOf(names: string, change: Partial<Plan> = {}): Plan {
  const bars = [...names].map((name, i) => ({
    bar: barId(name),
    section: sectionId("s"),
    entry: formEntryId("f"),
    round: 1,
    start: ticks(192 * i),
    length: ticks(192),
    strokes: { upper: [], lower: [] },
  }));
  const stretch = { first: 0, last: bars.length - 1, loops: false };
  return { bars, stretch, anchor: { sample: 0, tick: 0, samplesPerTick }, ...change };
}

/** Recorded over these bars after a second of counting in, with another second at its end. */
function takeOf(names: string, change: Partial<TakeHead> = {}): TakeHead {
  const bars = [...names].map((name) => ({ bar: barId(name), length: ticks(192) }));
  const lengthMs = 2000 * bars.length + 1000;
  return { name: "Riff", bars, offsetMs: 1000, lengthMs, tempo: 120, ...change };
}

const lead = 0.12 * second;
const always = [0, 1e9] as const;

test("a take sounds from its first bar to the end of its recording", () => {
  const places = takePlaces(planOf("abcd"), takeOf("bc"), room)(...always);
  expect(places).toEqual([{ zero: bar - second, start: bar - lead, end: 3 * bar + second }]);
});

test("it sounds each time its bars come up, and never where they don't follow one another", () => {
  const places = takePlaces(planOf("abxbca"), takeOf("bc"), room)(...always);
  expect(places.map(({ zero }) => zero + second)).toEqual([bar, 3 * bar]);
  // After its first bar another one comes: there it ends with the bar.
  expect(places[0]?.end).toBe(2 * bar);
});

test("where the playing begins in the middle, the take does too", () => {
  const stretch = { first: 1, last: 2, loops: false };
  const anchor = { sample: 500, tick: 192, samplesPerTick };
  const [place] = takePlaces(planOf("abc", { stretch, anchor }), takeOf("abc"), room)(...always);
  expect(place).toEqual({ zero: 500 - bar - second, start: 500, end: 500 + 2 * bar + second });
});

test("it goes round with the bars, ten thousand rounds on without a sample of drift", () => {
  const stretch = { first: 1, last: 2, loops: true };
  const anchor = { sample: 0, tick: 192, samplesPerTick };
  const places = takePlaces(planOf("abc", { stretch, anchor }), takeOf("b"), room);
  const round = 2 * bar;
  const from = 10_000 * round;
  const begins = places(from, from + round).map(({ zero }) => zero + second);
  expect(begins).toEqual([from, from + round].slice(0, begins.length));
  expect(begins.length).toBeGreaterThan(0);
});

test("a window shows what touches it and nothing else", () => {
  const places = takePlaces(planOf("abc"), takeOf("b"), room);
  expect(places(0, bar - lead)).toEqual([]);
  expect(places(0, bar)).toHaveLength(1);
  expect(places(2 * bar + second - 1, 1e9)).toHaveLength(1);
  expect(places(2 * bar + second, 1e9)).toEqual([]);
});

test("it sounds at its own tempo only", () => {
  const slower = planOf("abc", { anchor: { sample: 0, tick: 0, samplesPerTick: bar / 180 } });
  expect(takePlaces(slower, takeOf("b"), room)(...always)).toEqual([]);
});

test("a bar that has another length now is left out, and the rest stays in place", () => {
  const bars = planOf("abc").bars.map((each, i) =>
    i === 0 ? { ...each, length: ticks(96) } : { ...each, start: ticks(each.start - 96) },
  );
  const places = takePlaces(planOf("abc", { bars }), takeOf("abc"), room)(...always);
  // The second bar of the take begins a bar and a second into the recording.
  expect(places.map(({ zero }) => zero + bar + second)).toEqual([bar / 2]);
});

test("a bar that comes twice in a take is found where most goes on alike", () => {
  const [place] = takePlaces(planOf("ac"), takeOf("abac"), room)(...always);
  expect(place?.zero).toBe(-2 * bar - second);
});
