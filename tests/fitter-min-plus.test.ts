/** The product on vectors against the plain one, over sizes, values and leftovers of memory. */
import { type MinPlus, ruledOut } from "@halflap/fitter/min-plus";
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

function answer(minPlus: MinPlus, left: Uint16Array, right: Uint16Array, sizes: Sizes) {
  // What stood there before must not matter, nor what lies behind.
  const out = new Uint16Array(sizes.rows * sizes.columns + 3).fill(7);
  minPlus.product(left, right, out.subarray(0, out.length - 3), sizes);
  return out;
}

type Sizes = { readonly rows: number; readonly inner: number; readonly columns: number };

test("F9 the product on vectors equals the plain one in 4,000 sizes and sets of numbers", () => {
  for (let seed = 1; seed <= 4000; seed += 1) {
    const chance = seeded(seed);
    const size = () => 1 + chance.below(chance.pick([4, 20, 40]));
    const sizes = { rows: size(), inner: size(), columns: size() };
    const left = numbers(chance, sizes.rows * sizes.inner);
    const right = numbers(chance, sizes.inner * sizes.columns);
    const expected = answer(plainMinPlus, left, right, sizes);
    expect(answer(fast, left, right, sizes), `seed ${seed}`).toEqual(expected);
  }
});

test("F9 large products make the memory grow and stay equal", () => {
  const chance = seeded(1);
  for (const sizes of [
    { rows: 150, inner: 150, columns: 150 },
    { rows: 1, inner: 400, columns: 401 },
    { rows: 301, inner: 299, columns: 3 },
    { rows: 257, inner: 130, columns: 255 },
  ]) {
    const left = numbers(chance, sizes.rows * sizes.inner);
    const right = numbers(chance, sizes.inner * sizes.columns);
    expect(answer(fast, left, right, sizes)).toEqual(answer(plainMinPlus, left, right, sizes));
  }
});

test("F9 the plain product is the least sum, held at 65,535", () => {
  const sizes = { rows: 2, inner: 2, columns: 2 };
  const left = Uint16Array.from([1, 50_000, 60_000, 65_535]);
  const right = Uint16Array.from([4, 60_000, 0, 20_000]);
  const out = answer(plainMinPlus, left, right, sizes);
  expect([...out.subarray(0, 4)]).toEqual([5, 60_001, 60_004, 65_535]);
});

test("F9 the sums around the product are equal too, in 2,000 sizes and sets of numbers", () => {
  for (let seed = 1; seed <= 2000; seed += 1) {
    const chance = seeded(seed);
    const length = 1 + chance.below(chance.pick([8, 20, 200]));
    const gone = chance.pick([0, 0.2, 1]);
    const costs = Int32Array.from({ length }, () =>
      chance.happens(gone) ? ruledOut : chance.below(chance.pick([9, 500_000])),
    );
    const said = Array.from({ length: chance.below(4) }, () => ({
      values: numbers(chance, length),
      outFrom: chance.pick([60_000, 65_536]),
    }));
    const [quick, plain] = [fast, plainMinPlus].map((minPlus) => {
      const out = new Int32Array(length);
      const least = minPlus.gather(costs, said, out);
      const given = new Uint16Array(length + 2).fill(7);
      const told = minPlus.give(out, said[0]?.values ?? new Uint16Array(length), given);
      return { out, least, given, told };
    });
    expect(quick, `seed ${seed}`).toEqual(plain);
    expect(plain?.least).toBe(Math.min(ruledOut, ...(plain?.out ?? [])));
  }
});
