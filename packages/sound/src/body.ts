/** What stands between strings and ear: wood that rings along, and what it lets through. */

/** A mode of the body: its frequency in Hz, how narrow it is, and how loud beside the strings. */
export type Mode = { readonly frequency: number; readonly quality: number; readonly gain: number };

export type BodyShape = {
  readonly modes: readonly Mode[];
  /** Seconds of each echo inside, by which attacks spread in time and no frequency is changed. */
  readonly echoes: readonly number[];
  /** Hz below which the body gives less and less. */
  readonly floor: number;
  /** Hz above which it gives less and less. */
  readonly ceiling: number;
};

/** Smaller than this is silence; it keeps the filters out of denormal numbers. */
const nothing = 1e-20;

/** Changes the first `count` samples of `mono` to what is heard through the body. */
export type Body = {
  readonly pass: (mono: Float64Array, count: number) => void;
  /** Forgets what rings. */
  readonly silence: () => void;
  /** Called now and then: lets go of what can't be heard. */
  readonly slowly: () => void;
};

/** A body at rest. */
export function makeBody({ modes, echoes, floor, ceiling }: BodyShape, sampleRate: number): Body {
  const resonators = modes.map((mode) => new Resonator(mode, sampleRate));
  const allPasses = echoes.map((seconds) => new AllPass(Math.round(seconds * sampleRate)));
  const floorRate = 1 - Math.exp((-2 * Math.PI * floor) / sampleRate);
  const ceilingRate = 1 - Math.exp((-2 * Math.PI * ceiling) / sampleRate);
  const state = { under: 0, top: 0 };
  return {
    pass: (mono, count) => {
      let { under, top } = state;
      for (let i = 0; i < count; i += 1) {
        const plain = mono[i] ?? 0;
        let sum = plain;
        for (const resonator of resonators) sum += resonator.next(plain);
        under += floorRate * (sum - under);
        top += ceilingRate * (sum - under - top);
        let spread = top;
        for (const allPass of allPasses) spread = allPass.next(spread);
        mono[i] = spread;
      }
      state.under = under;
      state.top = top;
    },
    silence: () => {
      state.under = 0;
      state.top = 0;
      for (const part of [...resonators, ...allPasses]) part.silence();
    },
    slowly: () => {
      if (Math.abs(state.under) < nothing) state.under = 0;
      if (Math.abs(state.top) < nothing) state.top = 0;
      for (const part of [...resonators, ...allPasses]) part.slowly();
    },
  };
}

/** A band-pass of two poles with its gain at the peak, as the bilinear transform gives it. */
class Resonator {
  readonly #input: number;
  readonly #first: number;
  readonly #second: number;
  #x1 = 0;
  #x2 = 0;
  #y1 = 0;
  #y2 = 0;

  constructor({ frequency, quality, gain }: Mode, sampleRate: number) {
    const angle = (2 * Math.PI * frequency) / sampleRate;
    const width = Math.sin(angle) / (2 * quality);
    this.#input = (gain * width) / (1 + width);
    this.#first = (2 * Math.cos(angle)) / (1 + width);
    this.#second = (width - 1) / (1 + width);
  }

  next(x: number): number {
    const y = this.#input * (x - this.#x2) + this.#first * this.#y1 + this.#second * this.#y2;
    this.#x2 = this.#x1;
    this.#x1 = x;
    this.#y2 = this.#y1;
    this.#y1 = y;
    return y;
  }

  silence(): void {
    this.#x1 = 0;
    this.#x2 = 0;
    this.#y1 = 0;
    this.#y2 = 0;
  }

  slowly(): void {
    if (Math.abs(this.#y1) + Math.abs(this.#y2) < nothing) this.silence();
  }
}

/** How much of an echo comes back. */
const echoShare = 0.5;

/** Schroeder's all-pass of 1962: every frequency as loud as before, each a little later. */
class AllPass {
  readonly #line: Float64Array;
  #at = 0;
  #peak = 0;

  constructor(length: number) {
    this.#line = new Float64Array(length);
  }

  next(x: number): number {
    const echo = this.#line[this.#at] ?? 0;
    const into = x + echoShare * echo;
    this.#line[this.#at] = into;
    this.#at = this.#at + 1 === this.#line.length ? 0 : this.#at + 1;
    this.#peak = Math.max(this.#peak, Math.abs(into));
    return echo - echoShare * into;
  }

  silence(): void {
    this.#line.fill(0);
  }

  slowly(): void {
    if (this.#peak < nothing) this.silence();
    this.#peak = 0;
  }
}
