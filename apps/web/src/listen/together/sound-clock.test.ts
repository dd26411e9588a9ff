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

test("readings that come in blocks of 10 ms are right within a fraction of a millisecond", () => {
  const clock = new SoundClock(rate);
  for (let sample = 0; sample < 3 * rate; sample += 1024) {
    const exact = 700 + (sample / rate) * 1000;
    // As if the browser looked at its clock once for each block of 10 ms.
    const ragged = exact + ((sample * 7919) % 480) / 48 - 5;
    clock.read({ sample, heardMs: ragged });
  }
  expect(Math.abs((clock.sampleAt(700) ?? rate) / rate) * 1000).toBeLessThan(1.5);
});

test("a single jump of the clock moves nothing; a lasting one is followed", () => {
  const clock = new SoundClock(rate);
  const read = (sample: number, shift: number) =>
    clock.read({ sample, heardMs: (sample / rate) * 1000 + shift });
  for (let index = 0; index < 60; index += 1) read(index * 1024, index === 30 ? 400 : 0);
  expect(clock.sampleAt(1_000)).toBeCloseTo(rate, 6);
  for (let index = 60; index < 130; index += 1) read(index * 1024, 20);
  expect(clock.sampleAt(1_020)).toBeCloseTo(rate, 6);
});

test("too few readings say nothing, and so does a rest", () => {
  const clock = new SoundClock(rate);
  expect(clock.sampleAt(0)).toBeUndefined();
  for (let index = 0; index < 10; index += 1) clock.read({ sample: index, heardMs: 0 });
  expect(clock.sampleAt(0)).toBeDefined();
  clock.forget();
  expect(clock.sampleAt(0)).toBeUndefined();
});
