/** Sets of pitches as bits, so that two grips are compared in a few machine words. */

/** Pitches from MIDI note 16 up, 32 a word: three words reach past the last fret of a guitar. */
export type PitchSet = { readonly a: number; readonly b: number; readonly c: number };

const lowest = 16;
const wordBits = 32;

/** No pitch at all. */
export const noPitches: PitchSet = { a: 0, b: 0, c: 0 };

/** The set of some pitches; those that no guitar has are left out. */
export function pitchSet(pitches: Iterable<number>): PitchSet {
  const words = [0, 0, 0];
  for (const pitch of pitches) {
    const place = pitch - lowest;
    const word = Math.floor(place / wordBits);
    const known = words[word];
    if (known !== undefined) words[word] = known | (1 << (place % wordBits));
  }
  const [a = 0, b = 0, c = 0] = words;
  return { a, b, c };
}

/** What is in any of some sets. */
export function joined(sets: readonly PitchSet[]): PitchSet {
  let [a, b, c] = [0, 0, 0];
  for (const set of sets) {
    a |= set.a;
    b |= set.b;
    c |= set.c;
  }
  return { a, b, c };
}

/** Whether two sets share a pitch. */
export function meets(one: PitchSet, other: PitchSet): boolean {
  return ((one.a & other.a) | (one.b & other.b) | (one.c & other.c)) !== 0;
}

/** How many pitches two sets share. */
export function sharedCount(one: PitchSet, other: PitchSet): number {
  const [a, b, c] = [one.a & other.a, one.b & other.b, one.c & other.c];
  return (a | b | c) === 0 ? 0 : bitsIn(a) + bitsIn(b) + bitsIn(c);
}

/** How many pitches of a third set are in either of two. */
export function unionCount(one: PitchSet, other: PitchSet, within: PitchSet): number {
  return (
    bitsIn((one.a | other.a) & within.a) +
    bitsIn((one.b | other.b) & within.b) +
    bitsIn((one.c | other.c) & within.c)
  );
}

/** How many bits of a 32-bit word are set. */
export function bitsIn(word: number): number {
  let count = 0;
  for (let left = word; left !== 0; left &= left - 1) count++;
  return count;
}
