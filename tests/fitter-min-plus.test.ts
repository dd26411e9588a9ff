/** The product on vectors against the plain one, over sizes, values and leftovers of memory. */
import { never } from "@halflap/fitter/lattice";
import { type Crossed, type MinPlus, ruledOut, type Sides } from "@halflap/fitter/min-plus";
import { plainMinPlus } from "@halflap/fitter/plain-min-plus";
import { expect, test } from "vitest";
import { simd } from "./support/kernel.ts";
import { type Chance, seeded } from "./support/seeded.ts";

const fast = simd();

function numbers(chance: Chance, length: number): Uint16Array {
  const below = chance.pick([2, 300, 40_000, 65_536]);
  const full = chance.pick([0, 0.1, 0.9]);
  return Uint16Array.from({ length }, () => (chance.happens(full) ? 65_535 : chance.below(below)));
}

/** What an edge of such sizes tells; what stood there before must not matter, nor what lies on. */
function told(minPlus: MinPlus, { costs, said, from, to, upper, lower }: Asked) {
  const out = new Uint16Array(to.upper * to.lower + 3).fill(7);
  const own = out.subarray(0, out.length - 3);
  return { given: minPlus.tell(costs, said, { from, to, upper, lower }, own), out };
}

type Asked = Crossed<Uint16Array> & { readonly costs: Int32Array; readonly said: Uint16Array };

function asked(chance: Chance, from: Sides, to: Sides): Asked {
  const length = from.upper * from.lower;
  return {
    ...{ from, to, costs: costsOf(chance, length), said: numbers(chance, length) },
    upper: numbers(chance, from.upper * to.upper),
    lower: numbers(chance, from.lower * to.lower),
  };
}

function costsOf(chance: Chance, length: number): Int32Array {
  const gone = chance.pick([0, 0.2, 1]);
  return Int32Array.from({ length }, () =>
    chance.happens(gone) ? ruledOut : chance.below(chance.pick([9, 500_000])),
  );
}

test("F9 what an edge tells on vectors equals the plain sums in 4,000 sizes and sets", () => {
  for (let seed = 1; seed <= 4000; seed += 1) {
    const chance = seeded(seed);
    const size = () => 1 + chance.below(chance.pick([1, 4, 20, 40]));
    const sides = () => ({ upper: size(), lower: size() });
    const edge = asked(chance, sides(), sides());
    expect(told(fast, edge), `seed ${seed}`).toEqual(told(plainMinPlus, edge));
  }
});

test("F9 large edges make the memory grow and stay equal", () => {
  const chance = seeded(1);
  for (const [upper, lower, above, below] of [
    [150, 150, 150, 150],
    [400, 1, 401, 1],
    [1, 299, 1, 301],
    [257, 130, 255, 3],
  ] as const) {
    const edge = asked(chance, { upper, lower }, { upper: above, lower: below });
    expect(told(fast, edge)).toEqual(told(plainMinPlus, edge));
  }
});

test("F9 what an edge tells is the least over the states left, by its definition", () => {
  for (let seed = 1; seed <= 200; seed += 1) {
    const chance = seeded(seed);
    const size = () => 1 + chance.below(5);
    const sides = () => ({ upper: size(), lower: size() });
    const edge = asked(chance, sides(), sides());
    const { out, given } = told(plainMinPlus, edge);
    const net = [...edge.costs].map((cost, at) =>
      cost >= ruledOut ? ruledOut : cost - (edge.said[at] ?? 0),
    );
    const least = Math.min(ruledOut, ...net);
    expect(given.least).toBe(least);
    const at = (matrix: Uint16Array, row: number, column: number, width: number) =>
      matrix[row * width + column] ?? 0;
    for (let above = 0; above < edge.to.upper; above += 1) {
      for (let below = 0; below < edge.to.lower; below += 1) {
        let expected = 65_535;
        for (const [pair, cost] of net.entries()) {
          const [upper, lower] = [Math.floor(pair / edge.from.lower), pair % edge.from.lower];
          const value = cost >= ruledOut ? 65_535 : Math.min(cost - least, never - 1);
          const over =
            (edge.from.lower === 1
              ? at(edge.upper, upper, above, edge.to.upper)
              : at(edge.upper, above, upper, edge.from.upper)) +
            at(edge.lower, lower, below, edge.to.lower);
          expected = Math.min(expected, value + over);
        }
        expect(at(out, above, below, edge.to.lower), `seed ${seed}`).toBe(expected);
      }
    }
  }
});

test("F9 what is gathered is equal too, in 2,000 sizes and sets of numbers", () => {
  for (let seed = 1; seed <= 2000; seed += 1) {
    const chance = seeded(seed);
    const length = 1 + chance.below(chance.pick([8, 20, 200]));
    const costs = costsOf(chance, length);
    const said = Array.from({ length: chance.below(4) }, () => ({
      values: numbers(chance, length),
      outFrom: chance.pick([60_000, 65_536]),
    }));
    const [quick, plain] = [fast, plainMinPlus].map((minPlus) => {
      const out = new Int32Array(length);
      return { least: minPlus.gather(costs, said, out), out };
    });
    expect(quick, `seed ${seed}`).toEqual(plain);
    expect(plain?.least).toBe(Math.min(ruledOut, ...(plain?.out ?? [])));
  }
});
