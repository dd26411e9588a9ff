/**
 * Loudness and true peak of a stereo recording at 48 kHz, as Recommendation ITU-R BS.1770-4
 * describes them: K-weighting by two filters with the coefficients of its tables 1 and 2, blocks of
 * 400 ms that overlap by three quarters, gates at -70 LUFS and 10 LU below; peaks between samples
 * by four times oversampling (its Annex 2; the interpolator here is a windowed sine cardinal).
 */
import { assert } from "@halflap/theory/units";
import type { Recording } from "../offline.ts";

type Biquad = {
  readonly b: readonly [number, number, number];
  readonly a: readonly [number, number];
};

const shelf: Biquad = {
  b: [1.53512485958697, -2.69169618940638, 1.19839281085285],
  a: [-1.69065929318241, 0.73248077421585],
};
const highPass: Biquad = { b: [1, -2, 1], a: [-1.99004745483398, 0.99007225036621] };

const rate = 48000;
const block = 0.4 * rate;
const hop = block / 4;
const absoluteGate = -70;
const relativeGate = -10;

/** Integrated loudness in LUFS; minus infinity for silence. */
export function loudnessOf({ left, right, sampleRate }: Recording): number {
  assert(sampleRate === rate, "the tables are for 48 kHz", sampleRate);
  const sides = [left, right].map((side) =>
    filtered(filtered(Float64Array.from(side), shelf), highPass),
  );
  const powers: number[] = [];
  for (let at = 0; at + block <= left.length; at += hop) {
    powers.push(sides.reduce((sum, side) => sum + meanSquare(side, at, at + block), 0));
  }
  const heard = powers.filter((power) => lufs(power) > absoluteGate);
  const gate = lufs(mean(heard)) + relativeGate;
  return lufs(mean(heard.filter((power) => lufs(power) > gate)));
}

const oversampling = 4;
const reach = 12;

/** The highest value between samples, in dB below full scale. */
export function truePeakOf({ left, right }: Recording): number {
  return 20 * Math.log10(Math.max(peakBetween(left), peakBetween(right)));
}

function peakBetween(side: Float32Array): number {
  const phases = Array.from({ length: oversampling }, (_, phase) => {
    return Array.from({ length: 2 * reach }, (_, tap) =>
      kernel(tap - reach + 1 - phase / oversampling),
    );
  });
  let peak = 0;
  for (let at = 0; at < side.length; at += 1) {
    // Beside a sample of less than half the peak so far music has no higher one: this runs over
    // minutes of sound.
    if (Math.abs(side[at] ?? 0) < peak / 2) continue;
    for (const phase of phases) {
      let sum = 0;
      for (const [tap, weight] of phase.entries()) {
        sum += weight * (side[at + tap - reach + 1] ?? 0);
      }
      peak = Math.max(peak, Math.abs(sum));
    }
  }
  return peak;
}

function kernel(x: number): number {
  if (x === 0) return 1;
  const window = Math.cos((Math.PI * x) / (2 * reach)) ** 2;
  return Math.abs(x) >= reach ? 0 : (window * Math.sin(Math.PI * x)) / (Math.PI * x);
}

function filtered(input: Float64Array, { b, a }: Biquad): Float64Array {
  const output = new Float64Array(input.length);
  let [x1, x2, y1, y2] = [0, 0, 0, 0];
  for (let i = 0; i < input.length; i += 1) {
    const x = input[i] ?? 0;
    const y = b[0] * x + b[1] * x1 + b[2] * x2 - a[0] * y1 - a[1] * y2;
    [x1, x2, y1, y2] = [x, x1, y, y1];
    output[i] = y;
  }
  return output;
}

function meanSquare(side: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i += 1) sum += (side[i] ?? 0) ** 2;
  return sum / (to - from);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function lufs(power: number): number {
  return -0.691 + 10 * Math.log10(power);
}
