/** A sound whose own clock runs fast is held to the shared moment, gently and rarely. */

import { countInMax, tempoFactorMax, tempoFactorMin } from "@halflap/sound/performance";
import { togetherCountInMax, togetherPercentMax, togetherPercentMin } from "@halflap/wire/limits";
import type { SharedPlay } from "@halflap/wire/together";
import { describe, expect, test } from "vitest";
import { barAt, board } from "../test-support/rehearsal.ts";
import { courseOf } from "./course.ts";
import { Following, type Word } from "./following.ts";
import type { Meeting } from "./meeting.ts";

const rate = 48_000;
const agreement = { atMs: 0, offsetMs: 5_000, withinMs: 1, drift: 0 };
const play: SharedPlay = {
  kind: "playing",
  tick: 192,
  atMs: 5_000 + 1_000,
  percent: 80,
  countIn: 1,
  loop: { kind: "bars", from: barAt(0), to: barAt(1) },
};
const word: Word = { revision: 3, play };
const readEveryMs = (1024 / rate) * 1000;

/** Audio that runs faster than the page's clock by a share, and says so in blocks. */
function listen(following: Following, fast: number, fromMs: number, toMs: number, nudge = 0) {
  const meetings: { readonly atMs: number; readonly meeting: Meeting }[] = [];
  const errors: number[] = [];
  let now: Meeting | undefined;
  for (let atMs = fromMs; atMs < toMs; atMs += readEveryMs) {
    const contextTime = (atMs / 1000) * (1 + fast);
    const output = { contextTime, performanceTime: atMs };
    following.read({ nowMs: atMs, contextTime, latency: 0, output }, 0);
    const meeting = following.meeting(word, agreement, atMs, nudge);
    if (meeting !== undefined) {
      meetings.push({ atMs, meeting });
      now = meeting;
    }
    if (now === undefined) continue;
    // Where the tune stands by the samples, against where it should by the clock.
    const isMs = ((contextTime * rate - now.sample) / rate) * 1000;
    errors.push(isMs - (atMs - nudge - (play.atMs - agreement.offsetMs)));
  }
  return { meetings, errors };
}

test("the first word is told once the audio has been read for a while", () => {
  const { meetings } = listen(new Following(rate), 0, 200, 900);
  expect(meetings).toHaveLength(1);
  expect(meetings[0]?.atMs).toBeGreaterThan(350);
  const meeting = meetings[0]?.meeting;
  expect(meeting).toMatchObject({ tick: 192, counted: 1, tempoFactor: 0.8, loop: play.loop });
  expect(meeting?.sample).toBeCloseTo(rate, 3);
});

test.each([100e-6, -100e-6])("over ten minutes %d fast it stays within 3 ms", (fast) => {
  const { meetings, errors } = listen(new Following(rate), fast, 200, 600_000);
  expect(Math.max(...errors.map(Math.abs))).toBeLessThan(3);
  // Sixty milliseconds in all, in steps of about two.
  expect(meetings.length).toBeGreaterThan(20);
  expect(meetings.length).toBeLessThan(40);
});

test("audio that keeps time is left alone", () => {
  expect(listen(new Following(rate), 0, 200, 60_000).meetings).toHaveLength(1);
});

test("a shift by hand makes it later by just that", () => {
  const following = new Following(rate);
  listen(following, 0, 200, 2_000);
  following.forget("sent");
  const { meetings, errors } = listen(following, 0, 2_000, 4_000, 30);
  expect(meetings).toHaveLength(1);
  expect(meetings[0]?.meeting.sample).toBeCloseTo(rate * 1.03, 3);
  expect(Math.max(...errors.map(Math.abs))).toBeLessThan(0.01);
});

describe("the same bounds on the wire as in the sound", () => {
  test("tempo and count-in", () => {
    expect([togetherPercentMin, togetherPercentMax]).toEqual([
      tempoFactorMin * 100,
      tempoFactorMax * 100,
    ]);
    expect(togetherCountInMax).toBe(countInMax);
  });
});

test("what plays here is told again by the server’s clock, from a bar line", () => {
  const following = new Following(rate);
  listen(following, 0, 200, 3_000);
  const { bars, msPerTick } = courseOf(board, undefined);
  const plan = {
    bars: bars.map((bar) => ({ ...bar, strokes: { upper: [], lower: [] } })),
    stretch: { first: 0, last: 1, loops: true },
    anchor: { sample: rate, tick: 0, samplesPerTick: (msPerTick / 0.8 / 1000) * rate },
  };
  const again = following.again(plan, play, agreement, 3_000);
  const barMs = (192 * msPerTick) / 0.8;
  expect(again).toMatchObject({ percent: 80, countIn: 0, loop: play.loop });
  expect(((again?.atMs ?? 0) - 6_000) % barMs).toBeCloseTo(0, 3);
  expect(again?.atMs).toBeGreaterThan(5_000 + 3_000);
});
