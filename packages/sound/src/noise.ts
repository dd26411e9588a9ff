/** White noise of our own that is the same on every machine: xorshift, Marsaglia 2003. */

/** A source of numbers from -1 up to, not including, 1; equal seeds give equal noise. */
export function makeNoise(seed: number): () => number {
  // A state of zero would stay zero.
  let state = seed | 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return state / 2 ** 31;
  };
}
