/** Solving, on lattices small enough to be worked out on paper. */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { differentAnswers } from "./different-answers.ts";
import { type Lattice, never } from "./lattice.ts";
import { marginals } from "./marginals.ts";
import { plainMinPlus } from "./plain-min-plus.ts";
import { simdMinPlus } from "./simd-min-plus.ts";
import { solve } from "./solve.ts";

const minPlus = plainMinPlus;

/** Three places; the upper lane has three states, the lower two. Moving costs 5 a step above. */
const step = Uint16Array.from([0, 5, 10, 5, 0, 5, 10, 5, 0]);
const place = (...pairs: readonly number[]) => ({ upper: 3, lower: 2, pairs: numbers(pairs) });
const way = (from: number, to: number) => ({ from, to, upper: step, lower: undefined });
const open: Lattice = {
  places: [place(0, 9, 9, 9, 9, 9), place(9, 9, 9, 2, 9, 9), place(8, 8, 8, 8, 8, 0)],
  links: [way(0, 1), way(1, 2)],
};
const round: Lattice = { ...open, links: [...open.links, way(2, 0)] };

function numbers(list: readonly number[]): Uint16Array {
  return Uint16Array.from(list);
}

describe("F1 the cheapest choice", () => {
  test("of a chain goes up step by step", () => {
    const best = { upper: [0, 1, 2], lower: [0, 1, 1] };
    expect(solve(open, { minPlus })).toEqual({ choice: best, cost: 12, bound: 12, rounds: 1 });
  });

  test("counts the way back to the top, and prefers the smaller state on a tie", () => {
    const found = solve(round, { minPlus });
    expect(found?.cost).toBe(17);
    expect(found?.bound).toBe(17);
    expect(found?.choice).toEqual({ upper: [0, 0, 0], lower: [0, 0, 0] });
  });

  test("holds no never, and is undefined where all are", () => {
    const closed = place(...Array.from({ length: 6 }, () => never));
    expect(solve({ ...open, places: [closed, ...open.places.slice(1)] }, { minPlus })).toBe(
      undefined,
    );
    const shut = { ...way(0, 1), upper: new Uint16Array(9).fill(never) };
    expect(solve({ ...open, links: [shut] }, { minPlus })).toBe(undefined);
  });

  test("of a place that goes to itself counts each state's way", () => {
    const again = { from: 0, to: 0, upper: numbers([9, 0, 0, 0, 1, 0, 0, 0, 9]), lower: undefined };
    const lattice = { places: [place(0, 0, 5, 4, 0, 0)], links: [again] };
    expect(solve(lattice, { minPlus })?.choice).toEqual({ upper: [1], lower: [1] });
  });

  test("of nothing costs nothing", () => {
    const found = solve({ places: [], links: [] }, { minPlus });
    expect(found).toEqual({ choice: { upper: [], lower: [] }, cost: 0, bound: 0, rounds: 1 });
  });
});

describe("F2 F3 limits", () => {
  test("a state that costs more is left for another", () => {
    const upper = numbers([0, 40, 0]);
    const surcharge = [undefined, upper, undefined].map((more) => ({
      upper: more,
      lower: undefined,
    }));
    expect(solve(open, { minPlus, surcharge })?.choice.upper).toEqual([0, 0, 0]);
  });

  test("locked places hold what is allowed", () => {
    const allowed = new Map([[1, { upper: [2], lower: [0] }]]);
    const found = solve(open, { minPlus, allowed });
    expect(found?.choice).toEqual({ upper: [2, 2, 2], lower: [0, 0, 1] });
    expect(found?.cost).toBe(18);
    expect(solve(open, { minPlus, allowed: new Map([[1, { upper: [], lower: [0] }]]) })).toBe(
      undefined,
    );
  });
});

test("F7 marginals tell each state's cheapest choice, the cheapest first", () => {
  const found = marginals(open, { minPlus, place: 1, lane: "upper" });
  expect(found.map(({ state, cost }) => [state, cost])).toEqual([
    [1, 12],
    [0, 17],
    [2, 18],
  ]);
});

test("F8 the second answer differs by the share asked for, and says from what", () => {
  const weights = open.places.map(() => ({ upper: 1, lower: 1 }));
  const [first, second] = differentAnswers(open, { minPlus, count: 2, weights, least: 0.5 });
  expect([first?.cost, first?.distance, first?.multiplier]).toEqual([12, 1, 0]);
  expect(second?.distance).toBeGreaterThanOrEqual(0.5);
  expect(second?.cost).toBe(second?.bound);
});

test("F9 bytes that are no module leave the plain product", () => {
  expect(simdMinPlus(Uint8Array.from([1, 2, 3]))).toBe(undefined);
  const bytes = readFileSync(new URL("../../dist/kernel.wasm", import.meta.url));
  const fast = simdMinPlus(bytes);
  expect(fast?.name).toBe("simd");
  expect(bytes.length).toBeLessThanOrEqual(8192);
  if (fast) expect(solve(round, { minPlus: fast })).toEqual(solve(round, { minPlus }));
});
