/** Samples and the page's clock, on audio that says its times coarsely or not at all. */
import { expect, test } from "vitest";
import { heardMs, SoundClock } from "./sound-clock.ts";

const rate = 48_000;

test("where the browser knows what is heard, that counts", () => {
  const output = { contextTime: 9.9, performanceTime: 5_000 };
  const moment = { nowMs: 5_004, contextTime: 10, latency: 0.5, output };
  expect(heardMs(moment, 10)).toBeCloseTo(5_100, 9);
});

test.each([undefined, {}, { contextTime: 0, performanceTime: 0 }])(
  "where it says %j, the latency is added to now",
  (output) => {
    const moment = { nowMs: 5_000, contextTime: 10, latency: 0.03, output };
    expect(heardMs(moment, 10.02)).toBeCloseTo(5_050, 9);
  },
);

test("readings that come in blocks of 10 ms are right within a fraction of a block", () => {
  const clock = new SoundClock(rate);
  for (let sample = 0; sample < 3 * rate; sample += 1024) {
    // As if the browser looked at its clock once for each block of 10 ms.
    clock.read(700 + ((sample * 7919) % 480) / 48 - 5);
  }
  expect(Math.abs((clock.pageMsAt(0) ?? 0) - 700)).toBeLessThan(1.5);
});

test("a single jump of the clock moves nothing; a lasting one is followed", () => {
  const clock = new SoundClock(rate);
  for (let index = 0; index < 60; index += 1) clock.read(index === 30 ? 400 : 0);
  expect(clock.sampleAt(1_000)).toBeCloseTo(rate, 6);
  for (let index = 0; index < 70; index += 1) clock.read(20);
  expect(clock.sampleAt(1_020)).toBeCloseTo(rate, 6);
  expect(clock.pageMsAt(rate)).toBeCloseTo(1_020, 6);
});

test("too few readings say nothing, and so does a rest", () => {
  const clock = new SoundClock(rate);
  expect(clock.sampleAt(0)).toBeUndefined();
  for (let index = 0; index < 20; index += 1) clock.read(5);
  expect(clock.sampleAt(5)).toBe(0);
  clock.forget();
  expect(clock.sampleAt(0)).toBeUndefined();
  expect(clock.pageMsAt(0)).toBeUndefined();
});
