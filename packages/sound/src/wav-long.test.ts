/** Files, read back by the letters of the format; another program reads them in tests/reference. */
import { describe, expect, test } from "vitest";
import { makeEngine } from "./engine.ts";
import { usualMix } from "./mix.ts";
import { lengthInSamples, type Recording, renderSlices, renderWhole } from "./offline.ts";
import { demoBoard, played } from "./test-support/boards.ts";
import { encodeWav } from "./wav.ts";

const rate = 44100;
const usual = { mix: usualMix, seed: 1 };

/** A recording of constant values. */
function flat(left: number, right: number, length = 1000): Recording {
  return {
    left: new Float32Array(length).fill(left),
    right: new Float32Array(length).fill(right),
    sampleRate: rate,
  };
}

function samplesOf(bytes: Uint8Array): Int16Array {
  return new Int16Array(bytes.slice(44).buffer);
}

describe("H20 WAV", () => {
  test("H20 the header says what follows", () => {
    const bytes = encodeWav(flat(0, 0), 1);
    const view = new DataView(bytes.buffer);
    const text = (at: number) => String.fromCharCode(...bytes.subarray(at, at + 4));
    expect([0, 8, 12, 36].map(text)).toEqual(["RIFF", "WAVE", "fmt ", "data"]);
    expect(bytes).toHaveLength(44 + 4000);
    const fields = [
      [view.getUint32(4, true), 36 + 4000],
      [view.getUint16(20, true), 1],
      [view.getUint16(22, true), 2],
      [view.getUint32(24, true), rate],
      [view.getUint32(28, true), 4 * rate],
      [view.getUint16(32, true), 4],
      [view.getUint16(34, true), 16],
      [view.getUint32(40, true), 4000],
    ];
    for (const [said, meant] of fields) expect(said).toBe(meant);
  });

  test("H20 left comes before right, dithered by under two steps, alike for one seed", () => {
    const bytes = encodeWav(flat(0.25, -0.5), 5);
    const samples = samplesOf(bytes);
    for (let i = 0; i < samples.length; i += 2) {
      expect(Math.abs((samples[i] ?? 0) - 0.25 * 32767)).toBeLessThan(2);
      expect(Math.abs((samples[i + 1] ?? 0) + 0.5 * 32767)).toBeLessThan(2);
    }
    expect(bytes).toEqual(encodeWav(flat(0.25, -0.5), 5));
    expect(bytes).not.toEqual(encodeWav(flat(0.25, -0.5), 6));
  });

  test("H20 dither keeps a tone of a third of a step in the mean", () => {
    const samples = samplesOf(encodeWav(flat(1 / 3 / 32767, 0, 60000), 3));
    const mean = samples.reduce((sum, sample, i) => sum + (i % 2 === 0 ? sample : 0), 0) / 60000;
    expect(mean).toBeCloseTo(1 / 3, 1);
  });

  test("H20 what is too loud is turned down as a whole", () => {
    const samples = samplesOf(encodeWav(flat(2, -1), 1));
    expect(Math.max(...samples) / 32767).toBeCloseTo(10 ** (-1 / 20), 3);
    expect(Math.min(...samples) / 32767).toBeCloseTo(-(10 ** (-1 / 20)) / 2, 3);
  });
});

describe("H21 offline", () => {
  const performance = played(demoBoard, { range: { first: 4, last: 4 } });

  test("H21 gives the player's samples and two seconds more", () => {
    const whole = renderWhole(performance, rate, usual);
    expect(whole.left).toHaveLength(lengthInSamples(performance, rate));
    expect(lengthInSamples(performance, rate) / rate).toBeCloseTo(performance.end + 2, 4);
    const engine = makeEngine(rate, usual);
    engine.schedule(performance.events, { origin: 0, generation: 0 });
    const [left, right] = [whole.left, whole.right].map((side) => new Float32Array(side.length));
    if (left === undefined || right === undefined) throw new Error("two sides");
    engine.render(left, right);
    expect(left).toEqual(whole.left);
    expect(right).toEqual(whole.right);
  });

  test("H21 can be watched and left", () => {
    const seen: number[] = [];
    for (const { done } of renderSlices(performance, rate, usual)) {
      seen.push(done);
      if (done > 0.4) break;
    }
    expect(seen.length).toBeGreaterThan(1);
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
    expect(seen.at(-1)).toBeLessThan(0.9);
  });
});
