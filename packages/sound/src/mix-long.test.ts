/** Loudness, peaks and places of the mix, measured on the demo tune. */
import { demoDraft } from "@halflap/board/demo";
import { describe, expect, test } from "vitest";
import { makeEngine } from "./engine.ts";
import { usualMix } from "./mix.ts";
import { type Recording, renderWhole } from "./offline.ts";
import type { Part } from "./play-event.ts";
import { boardOf, charted, demoBoard, gripped, only, played } from "./test-support/boards.ts";
import { loudnessOf, truePeakOf } from "./test-support/loudness.ts";
import { note } from "./test-support/one-note.ts";
import { levelOf } from "./test-support/spectrum.ts";

const rate = 48000;
const usual = { mix: usualMix, seed: 1 };

describe("the meters", () => {
  const tone = (frequency: number, phase = 0): Recording => {
    const left = Float32Array.from({ length: 3 * rate }, (_, i) =>
      Math.sin((2 * Math.PI * frequency * i) / rate + phase),
    );
    return { left, right: new Float32Array(left.length), sampleRate: rate };
  };

  test("a full-scale tone of 997 Hz on one side is -3.01 LUFS: ITU-R BS.1770-4, Annex 1", () => {
    expect(loudnessOf(tone(997))).toBeCloseTo(-3.01, 1);
  });

  test("a peak between samples is found: a quarter of the rate, an eighth of a turn late", () => {
    const between = tone(rate / 4, Math.PI / 4);
    const largest = between.left.reduce((most, x) => Math.max(most, x), 0);
    expect(largest).toBeCloseTo(Math.SQRT1_2, 3);
    expect(truePeakOf(between)).toBeGreaterThan(-0.2);
    expect(truePeakOf(between)).toBeLessThan(0.2);
  });
});

describe("H18 loudness", () => {
  test("H18 the finished demo is at -18 LUFS, its true peak below -1 dBFS", () => {
    const whole = renderWhole(played(demoBoard), rate, usual);
    expect(Math.abs(loudnessOf(whole) + 18)).toBeLessThan(1);
    expect(truePeakOf(whole)).toBeLessThan(-1);
  });

  test("H18 its draft, which is as full as can be, is not clipped", () => {
    const range = { first: 12, last: 27 };
    const whole = renderWhole(played(boardOf(demoDraft()), { range }), rate, usual);
    expect(truePeakOf(whole)).toBeLessThan(0);
  });

  test("H18 the two guitars are equally loud there, within 3 LU", () => {
    const range = { first: 0, last: 19 };
    const [upper, lower] = (["upper", "lower"] as const).map((lane) =>
      loudnessOf(renderWhole(played(demoBoard, { range }), rate, only(lane))),
    );
    expect(Math.abs((upper ?? 0) - (lower ?? 0))).toBeLessThan(3);
  });

  test("H18 both sides are equally loud, and neither is pushed off the middle", () => {
    const { left, right } = renderWhole(
      played(demoBoard, { range: { first: 0, last: 19 } }),
      rate,
      usual,
    );
    const level = (side: Float32Array) => 20 * Math.log10(levelOf(side, 0, side.length));
    expect(Math.abs(level(left) - level(right))).toBeLessThan(1.5);
    for (const side of [left, right]) {
      const mean = side.reduce((sum, x) => sum + x, 0) / side.length;
      expect(20 * Math.log10(Math.abs(mean))).toBeLessThan(-70);
    }
  });

  test.each(["x-x-3-2-4-x", "x-x-x-10-10-11"])("H6 and on the same grip: %s", (grip) => {
    const chart = charted("F, 100", "| F7 | F7 |");
    const board = gripped(gripped(chart, "upper", grip), "lower", grip);
    const [upper, lower] = (["upper", "lower"] as const).map((lane) =>
      loudnessOf(renderWhole(played(board), rate, only(lane))),
    );
    expect(Math.abs((upper ?? 0) - (lower ?? 0))).toBeLessThan(3);
  });
});

describe("H15 parts", () => {
  const opening = played(demoBoard, { range: { first: 4, last: 7 } });

  test("H15 the whole less the whole without a part is the part", () => {
    const whole = renderWhole(opening, rate, usual);
    const mix = { ...usualMix, upper: { level: 1, isMuted: true } };
    const without = renderWhole(opening, rate, { mix, seed: 1 });
    const alone = renderWhole(opening, rate, only("upper"));
    const worst = whole.left.reduce(
      (most, x, i) => Math.max(most, Math.abs(x - (without.left[i] ?? 0) - (alone.left[i] ?? 0))),
      0,
    );
    // What is left is the rounding of three samples to 32-bit numbers.
    expect(worst).toBeLessThan(3 * 2 ** -25);
    expect(levelOf(alone.left, 0, alone.left.length)).toBeGreaterThan(0.005);
  });

  test("H15 the upper guitar stands left, the lower right, the rest in the middle", () => {
    const leaning = (...parts: readonly Part[]) => {
      const { left, right } = renderWhole(opening, rate, only(...parts));
      const level = (side: Float32Array) => levelOf(side, 0, side.length);
      return 20 * Math.log10(level(left) / level(right));
    };
    expect(leaning("upper")).toBeGreaterThan(6);
    expect(leaning("lower")).toBeLessThan(-6);
    expect(leaning("upper")).toBeLessThan(20);
    expect(leaning("bass", "drums", "count-in")).toBeCloseTo(0, 6);
  });

  test("H15 levels change without a click and soon", () => {
    const engine = makeEngine(rate, usual);
    engine.schedule([note()], { origin: 0, generation: 0 });
    const [left, right] = [new Float32Array(rate), new Float32Array(rate)];
    engine.render(left, right);
    const before = left.subarray(rate / 2);
    const jump = (sound: Float32Array) =>
      sound.reduce(
        (most, x, i) => Math.max(most, i === 0 ? 0 : Math.abs(x - (sound[i - 1] ?? 0))),
        0,
      );
    const steepest = jump(before);
    engine.setPart("lower", { level: 1, isMuted: true });
    const [after, other] = [new Float32Array(2000), new Float32Array(2000)];
    engine.render(after, other);
    expect(jump(after)).toBeLessThan(1.05 * steepest);
    expect(after.subarray(0.012 * rate).every((sample) => sample === 0)).toBe(true);
  });
});
