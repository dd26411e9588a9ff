/**
 * How the player's samples lie to the page's clock. One reading is as coarse as the audio's blocks;
 * the middle one of many is not.
 */
import { median } from "@halflap/wire/agreement";

/** What the browser says about an audio context at one moment; times of the context in seconds. */
export type AudioMoment = {
  readonly nowMs: number;
  readonly contextTime: number;
  /** Until what is rendered now is heard, in seconds; 0 where the browser does not say. */
  readonly latency: number;
  /** What is heard at a moment of the page's clock; zeros or missing where it does not know. */
  readonly output: { readonly contextTime?: number; readonly performanceTime?: number } | undefined;
};

/** When a time of the context is heard, by the page's clock, in ms. */
export function heardMs(moment: AudioMoment, time: number): number {
  const { nowMs, contextTime, latency, output } = moment;
  if (output?.contextTime && output.performanceTime) {
    return output.performanceTime + (time - output.contextTime) * 1000;
  }
  return nowMs + (time - contextTime + latency) * 1000;
}

/** Readings that are looked at together: a second and a third at one for each 1024 samples. */
const readingsMax = 61;
/** With fewer nothing is said. */
const readingsMin = 12;

/** Follows the readings; forgets what is older than some. */
export class SoundClock {
  readonly #sampleRate: number;
  #zeros: number[] = [];

  constructor(sampleRate: number) {
    this.#sampleRate = sampleRate;
  }

  /** One more reading: when by the page's clock the player's sample 0 was, or would be, heard. */
  read(zeroMs: number): void {
    this.#zeros.push(zeroMs);
    if (this.#zeros.length > readingsMax) this.#zeros.shift();
  }

  /** After a rest samples and time have come apart. */
  forget(): void {
    this.#zeros = [];
  }

  /** The sample that is heard at a moment of the page's clock, not rounded; undefined too early. */
  sampleAt(pageMs: number): number | undefined {
    const zero = this.#zero();
    return zero === undefined ? undefined : ((pageMs - zero) / 1000) * this.#sampleRate;
  }

  /** When by the page's clock a sample is heard, in ms; undefined too early. */
  pageMsAt(sample: number): number | undefined {
    const zero = this.#zero();
    return zero === undefined ? undefined : zero + (sample / this.#sampleRate) * 1000;
  }

  #zero(): number | undefined {
    return this.#zeros.length < readingsMin ? undefined : median(this.#zeros);
  }
}
