/** The solver against trying every choice, and against a recursion over whole states. */
import {
  type DifferentAnswer,
  differentAnswers,
  distanceOf,
  type PlaceWeights,
} from "@halflap/fitter/different-answers";
import { type Choice, costOf, type Lattice, never } from "@halflap/fitter/lattice";
import { marginals } from "@halflap/fitter/marginals";
import type { MinPlus } from "@halflap/fitter/min-plus";
import { plainMinPlus } from "@halflap/fitter/plain-min-plus";
import { type SolveOptions, solve } from "@halflap/fitter/solve";
import { expect, test } from "vitest";
import { simd } from "./support/kernel.ts";
import { leastByPairs } from "./support/pair-recursion.ts";
import {
  allChoices,
  isAllowed,
  randomLattice,
  randomLocks,
  type Shape,
  smallShape,
} from "./support/random-lattice.ts";
import { type Chance, seeded } from "./support/seeded.ts";

const products: readonly MinPlus[] = [simd(), plainMinPlus];
const [fast = plainMinPlus] = products;

function each(count: number, check: (chance: Chance, seed: number) => void): void {
  for (let seed = 1; seed <= count; seed += 1) check(seeded(seed), seed);
}

function small(chance: Chance): Lattice {
  return randomLattice(chance, smallShape(chance));
}

function cheapest(lattice: Lattice, passes: (choice: Choice) => boolean = () => true): number {
  let least = Number.POSITIVE_INFINITY;
  for (const { choice, cost } of allChoices(lattice)) {
    if (cost < least && passes(choice)) least = cost;
  }
  return least;
}

test("F1 the cheapest of all choices, proven, on 2,100 small lattices with locks", () => {
  let infeasible = 0;
  each(2100, (chance, seed) => {
    const lattice = small(chance);
    const locks = randomLocks(chance, lattice);
    const expected = cheapest(lattice, (choice) => isAllowed(choice, locks));
    const [found, plainly] = products.map((minPlus) => solve(lattice, { minPlus, allowed: locks }));
    expect(plainly, `seed ${seed}`).toEqual(found);
    if (expected === Number.POSITIVE_INFINITY) infeasible += 1;
    expect(found?.cost ?? Number.POSITIVE_INFINITY, `seed ${seed}`).toBe(expected);
    if (found === undefined) return;
    expect(found.bound, `seed ${seed}`).toBe(expected);
    expect(costOf(lattice, found.choice), `seed ${seed}`).toBe(expected);
    expect(isAllowed(found.choice, locks), `seed ${seed}`).toBe(true);
  });
  expect(infeasible).toBeGreaterThan(100);
  expect(infeasible).toBeLessThan(1700);
});

test("F1 twelve places of 12 by 12 states, open and round, as by a recursion over pairs", () => {
  each(12, (chance, seed) => {
    const isRound = seed % 2 === 0;
    const nevers = chance.pick([0, 0.05]);
    const shape: Shape = {
      ...{ places: 12, states: 12, isFull: true, isRound, ways: 0 },
      ...{ costs: chance.pick([20, 400]), nevers },
    };
    const lattice = randomLattice(chance, shape);
    const found = solve(lattice, { minPlus: fast });
    expect(found?.cost, `seed ${seed}`).toBe(leastByPairs(lattice, isRound));
    expect(found?.bound, `seed ${seed}`).toBe(found?.cost);
  });
});

test("F2 a surcharge is counted in, and never lowers the cost", () => {
  each(300, (chance, seed) => {
    const lattice = small(chance);
    const surcharge = lattice.places.map(({ upper, lower }) => ({
      upper: Uint16Array.from({ length: upper }, () => chance.below(50)),
      lower: chance.happens(0.3)
        ? undefined
        : Uint16Array.from({ length: lower }, () => chance.below(50)),
    }));
    const more = ({ upper, lower }: Choice) =>
      surcharge.reduce((sum, each, place) => {
        return sum + (each.upper[upper[place] ?? 0] ?? 0) + (each.lower?.[lower[place] ?? 0] ?? 0);
      }, 0);
    const expected = Math.min(
      ...allChoices(lattice).map(({ choice, cost }) => cost + more(choice)),
    );
    const without = solve(lattice, { minPlus: fast });
    const found = solve(lattice, { minPlus: fast, surcharge });
    expect(found?.cost ?? Number.POSITIVE_INFINITY, `seed ${seed}`).toBe(expected);
    if (without && found) expect(found.cost).toBeGreaterThanOrEqual(without.cost);
  });
});

test("F3 fewer states never cost less", () => {
  each(300, (chance, seed) => {
    const lattice = randomLattice(chance, {
      ...{ ...smallShape(chance), states: 6, places: 8 },
      costs: chance.pick([10, 200, 5000]),
    });
    const free = solve(lattice, { minPlus: fast });
    const allowed = randomLocks(chance, lattice);
    const held = solve(lattice, { minPlus: fast, allowed });
    const [less, more] = [free, held].map((each) => each?.cost ?? Number.POSITIVE_INFINITY);
    expect(more, `seed ${seed}`).toBeGreaterThanOrEqual(less ?? 0);
  });
});

test("F4 all costs doubled double the cost, and keep the choice where it is the only best", () => {
  each(400, (chance, seed) => {
    const shape = { ...smallShape(chance), costs: chance.pick([10, 1000]), nevers: 0 };
    const lattice = randomLattice(chance, shape);
    const twice = scaled(lattice, 2);
    const [one, two] = [lattice, twice].map((each) => solve(each, { minPlus: fast }));
    expect(two?.cost, `seed ${seed}`).toBe((one?.cost ?? 0) * 2);
    const best = allChoices(lattice).filter(({ cost }) => cost === one?.cost);
    if (best.length === 1) expect(two?.choice, `seed ${seed}`).toEqual(one?.choice);
  });
});

test("F4 an open chain keeps its choice on doubling whatever the ties", () => {
  each(100, (chance, seed) => {
    const shape = { places: 6, states: 5, isRound: false, ways: 0, costs: 3, nevers: 0 };
    const lattice = randomLattice(chance, shape);
    const [one, two] = [1, 2].map((times) => solve(scaled(lattice, times), { minPlus: fast }));
    expect(two?.choice, `seed ${seed}`).toEqual(one?.choice);
  });
});

test("F5 lanes changed over change over the choice", () => {
  each(400, (chance, seed) => {
    const lattice = small(chance);
    const other = swapped(lattice);
    const [one, two] = [lattice, other].map((each) => solve(each, { minPlus: fast }));
    expect(two?.cost, `seed ${seed}`).toBe(one?.cost);
    if (two === undefined) return;
    const back = { upper: two.choice.lower, lower: two.choice.upper };
    expect(costOf(lattice, back), `seed ${seed}`).toBe(one?.cost);
  });
});

test("F6 a search that is cut short says what it knows", () => {
  let open = 0;
  each(200, (chance, seed) => {
    const shape = { places: 6, states: 4, isRound: true, ways: 6, costs: 200, nevers: 0 };
    const lattice = randomLattice(chance, shape);
    const whole = solve(lattice, { minPlus: fast });
    const cut = solve(lattice, { minPlus: fast, roundsMax: 1 });
    if (whole === undefined || cut === undefined) throw new Error(`seed ${seed}: nothing found`);
    expect(cut.rounds).toBe(1);
    expect(cut.bound, `seed ${seed}`).toBeLessThanOrEqual(whole.cost);
    expect(cut.cost, `seed ${seed}`).toBeGreaterThanOrEqual(whole.cost);
    if (cut.bound < cut.cost) open += 1;
  });
  expect(open).toBeGreaterThan(20);
});

test("F7 what each state costs at least, as by trying every choice", () => {
  each(500, (chance, seed) => {
    const lattice = small(chance);
    const place = chance.below(lattice.places.length);
    const lane = chance.pick(["upper", "lower"] as const);
    const options: SolveOptions = { minPlus: fast };
    const states = Array.from({ length: lattice.places[place]?.[lane] ?? 0 }, (_, state) => state);
    const expected = states
      .map((state) => ({ state, cost: cheapest(lattice, (each) => each[lane][place] === state) }))
      .filter(({ cost }) => cost < Number.POSITIVE_INFINITY)
      .sort((a, b) => a.cost - b.cost || a.state - b.state);
    const found = marginals(lattice, { ...options, place, lane });
    expect(
      found.map(({ state, cost }) => ({ state, cost })),
      `seed ${seed}`,
    ).toEqual(expected);
    for (const { choice, cost, state } of found) {
      expect(choice[lane][place]).toBe(state);
      expect(costOf(lattice, choice)).toBe(cost);
    }
    const two = marginals(lattice, { ...options, place, lane, most: 2 });
    expect(two.map(({ state }) => state)).toEqual(expected.slice(0, 2).map(({ state }) => state));
  });
});

test("F8 no choice as unlike the earlier answers costs less than an answer", () => {
  let compared = 0;
  each(300, (chance, seed) => {
    const shape = { ...smallShape(chance), costs: chance.pick([10, 200]), nevers: 0, places: 4 };
    const lattice = randomLattice(chance, shape);
    const weights = lattice.places.map(() => ({ upper: chance.below(4), lower: chance.below(4) }));
    const least = chance.pick([0.1, 0.3, 0.5]);
    const answers = differentAnswers(lattice, { minPlus: fast, count: 4, weights, least });
    const all = allChoices(lattice);
    expect(answers[0]?.cost, `seed ${seed}`).toBe(Math.min(...all.map(({ cost }) => cost)));
    for (const [index, answer] of answers.entries()) {
      const earlier = answers.slice(0, index);
      expect(costOf(lattice, answer.choice)).toBe(answer.cost);
      expect(answer.bound).toBe(answer.cost);
      const own = likenesses(answer.choice, earlier, weights);
      const asUnlike = all.filter(({ choice }) => likenesses(choice, earlier, weights) <= own);
      expect(answer.cost, `seed ${seed}`).toBe(Math.min(...asUnlike.map(({ cost }) => cost)));
      for (const { choice } of earlier) {
        const distance = distanceOf(choice, answer.choice, weights);
        expect(distance).toBeGreaterThanOrEqual(answer.distance);
        expect(distance, `seed ${seed}`).toBeGreaterThanOrEqual(least);
        compared += 1;
      }
    }
  });
  expect(compared).toBeGreaterThan(300);
});

/** The weight shared with earlier answers, added up: what one multiplier speaks about. */
function likenesses(
  choice: Choice,
  earlier: readonly DifferentAnswer[],
  weights: readonly PlaceWeights[],
): number {
  const all = weights.reduce((sum, { upper, lower }) => sum + upper + lower, 0);
  return earlier.reduce((sum, answer) => {
    return sum + Math.round((1 - distanceOf(choice, answer.choice, weights)) * all);
  }, 0);
}

function scaled({ places, links }: Lattice, times: number): Lattice {
  const more = (costs: Uint16Array) => costs.map((cost) => Math.min(cost * times, never));
  return {
    places: places.map((place) => ({ ...place, pairs: more(place.pairs) })),
    links: links.map(({ upper, lower, ...ends }) => ({
      ...ends,
      upper: upper && more(upper),
      lower: lower && more(lower),
    })),
  };
}

function swapped({ places, links }: Lattice): Lattice {
  return {
    places: places.map(({ upper, lower, pairs }) => ({
      upper: lower,
      lower: upper,
      pairs: pairs.map((_, at) => pairs[(at % upper) * lower + Math.floor(at / upper)] ?? 0),
    })),
    links: links.map(({ upper, lower, ...ends }) => ({ ...ends, upper: lower, lower: upper })),
  };
}
