/**
 * What a string loses each time its wave comes round: a gain and a one-pole low-pass, worked out
 * from how long the fundamental and the treble shall take to fall by 60 dB (Jaffe & Smith 1983).
 */

/** Seconds in which the fundamental, and partials around `trebleHz`, fall by 60 dB. */
export type Decay = { readonly fundamental: number; readonly treble: number };

/** `delay` is the phase delay at the fundamental, in samples. */
export type LossFilter = { readonly gain: number; readonly pole: number; readonly delay: number };

/** Where the decay of the treble is told: about the top of what a guitar's pickup hears well. */
export const trebleHz = 3000;

/** A pole nearer to 1 would delay more than the shortest string holds. */
const poleMax = 0.93;
/** The loop may never gain, at no frequency. */
const gainMax = 0.99999;

/** The filter for a loop of this frequency. */
export function lossFilter(frequency: number, decay: Decay, sampleRate: number): LossFilter {
  const low = lossPerRound(frequency, decay.fundamental);
  const high = lossPerRound(frequency, Math.min(decay.treble, decay.fundamental));
  const angle = (2 * Math.PI * frequency) / sampleRate;
  const cosine = Math.cos(angle);
  const ratio = (high / low) ** 2;
  const pole = poleFor(cosine, Math.cos((2 * Math.PI * trebleHz) / sampleRate), ratio);
  const response = (1 - pole) / Math.sqrt(1 - 2 * pole * cosine + pole * pole);
  const delay = Math.atan2(pole * Math.sin(angle), 1 - pole * cosine) / angle;
  return { gain: Math.min(gainMax, low / response), pole, delay };
}

/** The factor by which a wave of this frequency shrinks in one round, to lose 60 dB in time. */
export function lossPerRound(frequency: number, decaySeconds: number): number {
  return 10 ** (-3 / (frequency * decaySeconds));
}

/**
 * The pole at which the power at the treble is `ratio` of that at the fundamental: the smaller
 * root of pole² - 2·b·pole + 1.
 */
function poleFor(cosineLow: number, cosineHigh: number, ratio: number): number {
  if (ratio >= 1) return 0;
  const b = (cosineLow - ratio * cosineHigh) / (1 - ratio);
  return b <= 1 ? poleMax : Math.min(poleMax, b - Math.sqrt(b * b - 1));
}
