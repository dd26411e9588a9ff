/** Renders a performance as fast as the machine can, in slices: to be watched and left. */
import { type EngineOptions, makeEngine } from "./engine.ts";
import type { Performance } from "./performance.ts";

export type Slice = {
  readonly left: Float32Array;
  readonly right: Float32Array;
  /** How much is done after it, 0..1. */
  readonly done: number;
};

/** Both sides of a stereo recording. */
export type Recording = {
  readonly left: Float32Array;
  readonly right: Float32Array;
  readonly sampleRate: number;
};

/** Seconds added after the last bar, for what rings. */
export const tailSeconds = 2;
const sliceSeconds = 1;

/** Samples in a rendered performance. */
export function lengthInSamples({ end }: Performance, sampleRate: number): number {
  return Math.ceil((end + tailSeconds) * sampleRate);
}

/** One slice after the other; whoever stops asking has cancelled. */
export function* renderSlices(
  played: Performance,
  sampleRate: number,
  options: EngineOptions,
): Generator<Slice> {
  const engine = makeEngine(sampleRate, options);
  engine.schedule(played.events, { origin: 0, generation: 0 });
  const length = lengthInSamples(played, sampleRate);
  for (let at = 0; at < length; at = engine.position()) {
    const count = Math.min(length - at, Math.round(sliceSeconds * sampleRate));
    const left = new Float32Array(count);
    const right = new Float32Array(count);
    engine.render(left, right);
    yield { left, right, done: engine.position() / length };
  }
}

/** The whole performance. */
export function renderWhole(
  played: Performance,
  sampleRate: number,
  options: EngineOptions,
): Recording {
  const length = lengthInSamples(played, sampleRate);
  const [left, right] = [new Float32Array(length), new Float32Array(length)];
  let at = 0;
  for (const slice of renderSlices(played, sampleRate, options)) {
    left.set(slice.left, at);
    right.set(slice.right, at);
    at += slice.left.length;
  }
  return { left, right, sampleRate };
}

/**
 * As long as what goes round, for a file that does: what sounds behind its end is heard at its
 * start instead, as it would be from the second time on.
 */
export function goingRound(
  { left, right, sampleRate }: Recording,
  { end }: Pick<Performance, "end">,
): Recording {
  const length = Math.round(end * sampleRate);
  return { left: folded(left, length), right: folded(right, length), sampleRate };
}

function folded(side: Float32Array, length: number): Float32Array {
  const round = side.slice(0, length);
  for (let i = length; i < side.length; i += 1) {
    const at = i % length;
    round[at] = (round[at] ?? 0) + (side[i] ?? 0);
  }
  return round;
}
