/** The motion between two grips as one number, without pairing the voices one by one. */

/** A grip sounds at most six strings. */
const stringsMax = 6;
const row = new Int32Array(stringsMax);

/**
 * What `threadsBetween` of the theory package gives as its total, in semitones; both lists ascend
 * and hold at most six pitches.
 */
export function motionTotal(from: readonly number[], to: readonly number[]): number {
  if (from.length === to.length) {
    let total = 0;
    for (let voice = 0; voice < from.length; voice++) total += size(from[voice], to[voice]);
    return total;
  }
  const [many, few] = from.length > to.length ? [from, to] : [to, from];
  if (few.length === 0) return 0;
  return few.length === many.length - 1 ? oneMore(many, few) : merged(many, few);
}

/** Of one voice more than the others two go together, next to each other. */
function oneMore(many: readonly number[], few: readonly number[]): number {
  let total = 0;
  // As if the two lowest went together; then each pair further up.
  for (let place = 0; place < few.length; place++) total += size(many[place + 1], few[place]);
  total += size(many[0], few[0]);
  let least = total;
  for (let place = 1; place < few.length; place++) {
    total += size(many[place], few[place]) - size(many[place], few[place - 1]);
    if (total < least) least = total;
  }
  return least;
}

/** Each of the many goes to one of the few, in order, none of the few left out. */
function merged(many: readonly number[], few: readonly number[]): number {
  const count = few.length;
  if (count === 0) return 0;
  for (let index = 0; index < many.length; index++) {
    const spare = many.length - 1 - index;
    // From the top down, so that the row still holds the sums of the pitch before.
    for (let place = Math.min(index, count - 1); place >= 0; place--) {
      if (count - 1 - place > spare) break;
      const stay = place < index ? (row[place] ?? 0) : Number.POSITIVE_INFINITY;
      const goUp = place > 0 ? (row[place - 1] ?? 0) : Number.POSITIVE_INFINITY;
      const before = index === 0 ? 0 : Math.min(stay, goUp);
      row[place] = before + size(many[index], few[place]);
    }
  }
  return row[count - 1] ?? 0;
}

function size(from: number | undefined, to: number | undefined): number {
  return Math.abs((from ?? 0) - (to ?? 0));
}
