/**
 * One string: an extended Karplus-Strong loop (Karplus & Strong 1983; Jaffe & Smith 1983). A wave
 * runs round a delay of one period and loses a little each time.
 */
import { type Decay, lossFilter, lossPerRound } from "./loss-filter.ts";
import { makeNoise } from "./noise.ts";

/** How a string is set in motion. */
export type Strike = {
  /** Hz, where it starts. */
  readonly frequency: number;
  /** The force of it; 1 is as hard as anybody strikes. */
  readonly force: number;
  /** Where it is picked: the share of its length from the bridge, above 0, at most 0.5. */
  readonly pick: number;
  /** Hz above which the pick is too soft to excite. */
  readonly edge: number;
  /** How much of the attack is the noise of the pick, 0..1. */
  readonly scrape: number;
  readonly decay: Decay;
  /** The share of what already sounds that goes on: little under a pick, most under a finger. */
  readonly carry: number;
};

/** Samples between two looks at what changes slowly. Counted from the start of all sound. */
export const slowStep = 32;

/** The lowest frequency a string is made for: A0, the lowest a guitar can be tuned to here. */
const frequencyMin = 27;
/** Below this, which is -120 dB, a string rests; so nothing ever decays into denormal numbers. */
const quietest = 1e-6;
/** Samples after the attack in which the pick's low-pass rings out. */
const edgeTail = 64;
/** Seconds in which a change of damping takes hold, so that a choke makes no click. */
const dampingSeconds = 0.002;
/** Read points before and after the place between which Lagrange's cubic is taken. */
const pointsBefore = 1;

/** A string with its wave; strike, glide and stop it, and add it to a mix. */
export class PluckedString {
  readonly #sampleRate: number;
  readonly #line: Float64Array;
  readonly #mask: number;
  readonly #noise: () => number;
  readonly #dampingRate: number;
  #write = 0;
  #isAwake = false;
  #peak = 0;
  #quietSamples = 0;
  // The loop.
  #frequency = 0;
  #decay: Decay = { fundamental: 1, treble: 1 };
  #delay = 0;
  #delayStep = 0;
  #pole = 0;
  #low = 0;
  #gain = 0;
  #gainTarget = 0;
  #isStopped = false;
  // The attack.
  #age = 0;
  #attackLength = 0;
  #pickLength = 0;
  #force = 0;
  #scrape = 0;
  #edgeRate = 1;
  #edge = 0;
  #carry = 0;
  // The glide.
  #glideFrom = 0;
  #glideTo = 0;
  #glideAge = 0;
  #glideLength = 0;

  constructor(sampleRate: number, seed: number) {
    this.#sampleRate = sampleRate;
    const size = 2 ** Math.ceil(Math.log2(sampleRate / frequencyMin + 8));
    this.#line = new Float64Array(size);
    this.#mask = size - 1;
    this.#noise = makeNoise(seed);
    this.#dampingRate = 1 - Math.exp(-1 / (dampingSeconds * sampleRate));
  }

  /** Whether anything of it is heard. */
  get isAwake(): boolean {
    return this.#isAwake;
  }

  /** Hz, as it sounds now; undefined at rest. */
  get frequency(): number | undefined {
    return this.#isAwake ? this.#frequency : undefined;
  }

  /** Strikes it; what sounded before goes on as far as `carry` says. */
  strike({ frequency, force, pick, edge, scrape, decay, carry }: Strike): void {
    const period = this.#sampleRate / frequency;
    this.#isAwake = true;
    this.#quietSamples = 0;
    this.#isStopped = false;
    this.#glideLength = 0;
    this.#decay = decay;
    this.#delay = this.#tuned(frequency);
    this.#delayStep = 0;
    this.#gain = this.#gainTarget;
    this.#age = 0;
    this.#attackLength = Math.round(period);
    this.#pickLength = Math.max(2, period * pick);
    this.#force = force;
    this.#scrape = scrape;
    this.#edgeRate = 1 - Math.exp((-2 * Math.PI * edge) / this.#sampleRate);
    this.#edge = 0;
    this.#carry = carry;
  }

  /** Moves the pitch from where it is, evenly to the ear, slow at both ends. */
  glide(toFrequency: number, lengthSeconds: number): void {
    this.#glideFrom = this.#frequency;
    this.#glideTo = toFrequency;
    this.#glideAge = 0;
    this.#glideLength = Math.max(1, Math.round((lengthSeconds * this.#sampleRate) / slowStep));
  }

  /** Damps it, to fall by 60 dB in so many seconds. */
  stop(decaySeconds: number): void {
    if (!this.#isAwake) return;
    this.#isStopped = true;
    this.#gainTarget = Math.min(this.#gainTarget, lossPerRound(this.#frequency, decaySeconds));
  }

  /** Rests at once. */
  silence(): void {
    this.#line.fill(0);
    this.#isAwake = false;
    this.#low = 0;
    this.#peak = 0;
  }

  /** Called every `slowStep` samples: moves a glide on, and rests when nothing is heard. */
  slowly(): void {
    if (!this.#isAwake) return;
    this.#quietSamples = this.#peak < quietest ? this.#quietSamples + slowStep : 0;
    this.#peak = 0;
    this.#delayStep = 0;
    if (this.#quietSamples > this.#mask) this.silence();
    else if (this.#glideAge < this.#glideLength) this.#glideOn();
  }

  /** Adds the next `count` samples to `out`. */
  addTo(out: Float64Array, count: number): void {
    if (!this.#isAwake) return;
    const line = this.#line;
    const mask = this.#mask;
    const step = this.#delayStep;
    const take = 1 - this.#pole;
    let [write, delay, low, gain, peak] = [
      this.#write,
      this.#delay,
      this.#low,
      this.#gain,
      this.#peak,
    ];
    // Third-order Lagrange: the weights of four points for a place between the inner two.
    let [whole, a, b, c, d] = [0, 0, 0, 0, 0];
    for (let i = 0; i < count; i += 1) {
      if (i === 0 || step !== 0) {
        delay += step;
        whole = Math.floor(delay) - pointsBefore;
        const x = delay - whole;
        a = (-(x - 1) * (x - 2) * (x - 3)) / 6;
        b = (x * (x - 2) * (x - 3)) / 2;
        c = (-x * (x - 1) * (x - 3)) / 2;
        d = (x * (x - 1) * (x - 2)) / 6;
      }
      const at = write - whole;
      const read =
        a * (line[at & mask] ?? 0) +
        b * (line[(at - 1) & mask] ?? 0) +
        c * (line[(at - 2) & mask] ?? 0) +
        d * (line[(at - 3) & mask] ?? 0);
      low += take * (read - low);
      gain += this.#dampingRate * (this.#gainTarget - gain);
      let wave = gain * low;
      if (this.#age < this.#attackLength + edgeTail) wave = this.#attack(wave);
      line[write] = wave;
      write = (write + 1) & mask;
      out[i] = (out[i] ?? 0) + wave;
      const size = wave < 0 ? -wave : wave;
      if (size > peak) peak = size;
    }
    this.#write = write;
    this.#delay = delay;
    this.#low = low;
    this.#gain = gain;
    this.#peak = peak;
  }

  /**
   * The force of an ideal plucked string on its bridge is a pulse, as long as the part between pick
   * and bridge; here without its mean, softened by the edge of the pick.
   */
  #attack(wave: number): number {
    const isOver = this.#age >= this.#attackLength;
    const pulse = this.#age < this.#pickLength ? 1 : -1;
    const share = this.#pickLength / this.#attackLength;
    const shape = pulse > 0 ? 1 - share : -share;
    const fading = 1 - this.#age / this.#attackLength;
    const struck = isOver ? 0 : this.#force * (shape + this.#scrape * fading * this.#noise());
    this.#edge += this.#edgeRate * (struck - this.#edge);
    this.#age += 1;
    return (isOver ? wave : wave * this.#carry) + this.#edge;
  }

  #glideOn(): void {
    this.#glideAge += 1;
    const way = this.#glideAge / this.#glideLength;
    const eased = way * way * (3 - 2 * way);
    const delay = this.#tuned(this.#glideFrom * (this.#glideTo / this.#glideFrom) ** eased);
    this.#delayStep = (delay - this.#delay) / slowStep;
  }

  /** The delay at which the loop sounds a frequency; its losses are set for it. */
  #tuned(frequency: number): number {
    const filter = lossFilter(frequency, this.#decay, this.#sampleRate);
    this.#frequency = frequency;
    this.#pole = filter.pole;
    if (!this.#isStopped) this.#gainTarget = filter.gain;
    return this.#sampleRate / frequency - filter.delay;
  }
}
