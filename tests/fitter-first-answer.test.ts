/**
 * The first answer against all choices: the first in order of those that cost as little, however
 * it was found.
 */
import { type DifferentAnswer, differentAnswers } from "@halflap/fitter/different-answers";
import { type Choice, type Lattice, never } from "@halflap/fitter/lattice";
import type { MinPlus } from "@halflap/fitter/min-plus";
import { plainMinPlus } from "@halflap/fitter/plain-min-plus";
import { settledBefore } from "@halflap/fitter/settled";
import { expect, test } from "vitest";
import { simd } from "./support/kernel.ts";
import { allChoices, randomLattice, smallShape } from "./support/random-lattice.ts";
import { type Chance, seeded } from "./support/seeded.ts";

const fast = simd();
const products: readonly MinPlus[] = [fast, plainMinPlus];

function each(count: number, check: (chance: Chance, seed: number) => void): void {
  for (let seed = 1; seed <= count; seed += 1) check(seeded(seed), seed);
}

test("F1 the first answer is the first in order of all that cost as little", () => {
  let ties = 0;
  each(600, (chance, seed) => {
    const lattice = randomLattice(chance, {
      ...smallShape(chance),
      costs: chance.pick([2, 3, 10]),
    });
    const all = allChoices(lattice);
    const least = Math.min(...all.map(({ cost }) => cost));
    const best = all.filter(({ cost }) => cost === least && cost < Number.POSITIVE_INFINITY);
    if (best.length > 1) ties += 1;
    for (const first of ["upper", "lower"] as const) {
      const [expected] = best.map(({ choice }) => choice).sort(inOrder(first));
      for (const minPlus of products) {
        expect(firstOf(lattice, minPlus, first)?.choice, `seed ${seed}`).toEqual(expected);
      }
    }
  });
  expect(ties).toBeGreaterThan(150);
});

test("F1 it is the same after a look through a larger lattice that holds this one", () => {
  let [remembered, refused] = [0, 0];
  each(400, (chance, seed) => {
    const shape = { ...smallShape(chance), states: 4, costs: chance.pick([3, 10, 200]) };
    const whole = randomLattice(chance, shape);
    const part = lockedAt(whole, chance.below(whole.places.length), chance);
    const cold = firstOf(part, fast, "upper");
    firstOf(whole, fast, "upper", 2);
    if (settledBefore(part) !== undefined) remembered += 1;
    expect(firstOf(part, fast, "upper"), `seed ${seed}`).toEqual(cold);
    // What costs something else is no part, unless by chance another state costs that.
    const other = { ...part, places: part.places.map(dearer) };
    if (settledBefore(other) === undefined) refused += 1;
    const least = Math.min(...allChoices(other).map(({ cost }) => cost));
    expect(firstOf(other, fast, "upper")?.cost ?? Number.POSITIVE_INFINITY).toBe(least);
  });
  expect(remembered).toBeGreaterThan(200);
  expect(refused).toBeGreaterThan(200);
});

function firstOf(
  lattice: Lattice,
  minPlus: MinPlus,
  first: "upper" | "lower",
  count = 1,
): DifferentAnswer | undefined {
  const weights = lattice.places.map(() => ({ upper: 1, lower: 1 }));
  return differentAnswers(lattice, { minPlus, count, weights, least: 1, first })[0];
}

/** Where two choices first differ the smaller state comes first, one lane before the other. */
function inOrder(first: "upper" | "lower") {
  const second = first === "upper" ? "lower" : "upper";
  const states = (choice: Choice) =>
    choice.upper.flatMap((_, place) => [choice[first][place] ?? 0, choice[second][place] ?? 0]);
  return (a: Choice, b: Choice) => {
    const [one, other] = [states(a), states(b)];
    const at = one.findIndex((state, index) => state !== other[index]);
    return at < 0 ? 0 : (one[at] ?? 0) - (other[at] ?? 0);
  };
}

/** The lattice with one state of the lower lane left in a place, as after a lock. */
function lockedAt({ places, links }: Lattice, locked: number, chance: Chance): Lattice {
  const width = places[locked]?.lower ?? 1;
  const state = chance.below(width);
  const column = (costs: Uint16Array) => costs.filter((_, at) => at % width === state);
  const row = (costs: Uint16Array, columns: number) =>
    costs.subarray(state * columns, (state + 1) * columns);
  return {
    places: places.map((place, index) =>
      index === locked ? { ...place, lower: 1, pairs: column(place.pairs) } : place,
    ),
    links: links.map((link) => {
      const { from, to } = link;
      let lower = link.lower;
      if (lower !== undefined && to === locked) lower = column(lower);
      if (lower !== undefined && from === locked) {
        lower = row(lower, to === locked ? 1 : (places[to]?.lower ?? 0));
      }
      return { ...link, lower };
    }),
  };
}

function dearer(place: Lattice["places"][number]): Lattice["places"][number] {
  return { ...place, pairs: place.pairs.map((cost) => (cost === never ? 1 : cost + 1)) };
}
