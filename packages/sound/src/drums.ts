/** A plain drum kit: each drum is worked out once, as a short sound. */
import { makeNoise } from "./noise.ts";
import type { Drum } from "./play-event.ts";

/**
 * How a drum is made: a tone that falls from one frequency to another, and noise above a frequency,
 * each with the seconds in which it falls to a third. Ours, set by ear to stay behind guitars.
 */
type Shell = {
  readonly tone: { readonly from: number; readonly to: number; readonly fall: number };
  readonly toneLevel: number;
  readonly toneDecay: number;
  readonly noiseLevel: number;
  readonly noiseDecay: number;
  /** Hz below which, and above which, the noise is taken away. */
  readonly noiseFloor: number;
  readonly noiseCeiling: number;
};

const noTone = { tone: { from: 1, to: 1, fall: 1 }, toneLevel: 0, toneDecay: 0.01 } as const;

const shells: Readonly<Record<Drum, Shell>> = {
  kick: {
    tone: { from: 130, to: 52, fall: 0.03 },
    ...{ toneLevel: 0.9, toneDecay: 0.09 },
    ...{ noiseLevel: 0.08, noiseDecay: 0.006, noiseFloor: 800, noiseCeiling: 3000 },
  },
  snare: {
    tone: { from: 240, to: 185, fall: 0.02 },
    ...{ toneLevel: 0.35, toneDecay: 0.045 },
    ...{ noiseLevel: 0.4, noiseDecay: 0.06, noiseFloor: 1500, noiseCeiling: 4500 },
  },
  hat: { ...noTone, noiseLevel: 0.28, noiseDecay: 0.018, noiseFloor: 7000, noiseCeiling: 13000 },
  ride: {
    tone: { from: 3170, to: 3170, fall: 1 },
    ...{ toneLevel: 0.02, toneDecay: 0.18 },
    ...{ noiseLevel: 0.16, noiseDecay: 0.1, noiseFloor: 6000, noiseCeiling: 12000 },
  },
  foot: { ...noTone, noiseLevel: 0.2, noiseDecay: 0.012, noiseFloor: 5000, noiseCeiling: 9000 },
};

/** Falls to a third so often until it is cut: -61 dB. */
const decaysHeard = 7;
/** Seconds over which an attack rises, so that it does not click. */
const riseSeconds = 0.0006;

/** Hz below which nothing is left: a falling tone alone would push the whole mix to one side. */
const driftFrequency = 20;

/** The samples of a drum struck with full force. */
export function drumSound(drum: Drum, sampleRate: number, seed: number): Float32Array {
  const { tone, toneLevel, toneDecay, noiseLevel, noiseDecay, ...reach } = shells[drum];
  const noise = makeNoise(seed);
  const length = Math.ceil(Math.max(toneDecay, noiseDecay) * decaysHeard * sampleRate);
  const rateOf = (hertz: number) => 1 - Math.exp((-2 * Math.PI * hertz) / sampleRate);
  const [floorRate, ceilingRate] = [rateOf(reach.noiseFloor), rateOf(reach.noiseCeiling)];
  const sound = new Float32Array(length);
  let [phase, under, deeper, hiss, drift] = [0, 0, 0, 0, 0];
  const driftRate = rateOf(driftFrequency);
  for (let i = 0; i < length; i += 1) {
    const time = i / sampleRate;
    const frequency = tone.to + (tone.from - tone.to) * Math.exp(-time / tone.fall);
    phase += (2 * Math.PI * frequency) / sampleRate;
    const white = noise();
    under += floorRate * (white - under);
    const once = white - under;
    deeper += floorRate * (once - deeper);
    hiss += ceilingRate * (once - deeper - hiss);
    const rise = Math.min(1, time / riseSeconds);
    const struck =
      rise *
      (toneLevel * Math.exp(-time / toneDecay) * Math.sin(phase) +
        noiseLevel * Math.exp(-time / noiseDecay) * hiss);
    drift += driftRate * (struck - drift);
    sound[i] = struck - drift;
  }
  return sound;
}
