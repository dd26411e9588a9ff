/**
 * A mark in the recording itself: a short tone that nobody hears, put in at a known moment and
 * looked for in what the browser has written. So whatever starting, encoding and decoding shift is
 * measured and not guessed.
 */

const markHz = 1000;
const markSeconds = 0.02;
/** Left and right of the middle the tone is gone. */
const widthSeconds = 0.004;
const markLevel = 0.8;
/** A tenth of the mark: more than a silent line has after encoding. */
const foundLevel = 0.08;

/** Seconds from the start of the mark to its middle. */
export const markMiddleSeconds = markSeconds / 2;

/** The samples of the mark. */
export function makeMark(sampleRate: number): Float32Array<ArrayBuffer> {
  const samples = new Float32Array(Math.round(markSeconds * sampleRate));
  for (let i = 0; i < samples.length; i += 1) {
    const time = i / sampleRate - markMiddleSeconds;
    const swell = Math.exp(-((time / widthSeconds) ** 2));
    samples[i] = markLevel * swell * Math.cos(2 * Math.PI * markHz * time);
  }
  return samples;
}

/**
 * The seconds at which the middle of the mark lies in a recording that is silent before it;
 * undefined when there is none in its first seconds.
 */
export function findMark(samples: Float32Array, sampleRate: number): number | undefined {
  const searchSeconds = 10;
  const last = Math.min(samples.length, searchSeconds * sampleRate);
  let first = 0;
  while (first < last && Math.abs(samples[first] ?? 0) < foundLevel) first += 1;
  if (first >= last) return undefined;
  // The middle of its energy: an encoder may smear a tone, but to both sides alike.
  const reach = Math.round(markSeconds * sampleRate);
  let [energy, moment] = [0, 0];
  for (let i = Math.max(0, first - reach / 2); i < Math.min(last, first + reach); i += 1) {
    const at = Math.floor(i);
    const power = (samples[at] ?? 0) ** 2;
    energy += power;
    moment += power * at;
  }
  return moment / energy / sampleRate;
}
