/** Rows and scale of the comparison. */
import { expect, test } from "vitest";
import { costTable } from "./cost-table.ts";

const cheap = {
  total: 30,
  causes: [
    { cause: "motion", cost: 20 },
    { cause: "rub", cost: 10 },
  ],
} as const;
const dear = { total: 45, causes: [{ cause: "rub", cost: 45 }] } as const;

test("a row for each cause that costs something, the dearest first, on one scale", () => {
  const { rows, most } = costTable([cheap, dear]);
  expect(rows).toEqual([
    { cause: "rub", costs: [10, 45] },
    { cause: "motion", costs: [20, 0] },
  ]);
  expect(most).toBe(45);
});

test("the rows of a column add up to its total", () => {
  for (const costs of [cheap, dear]) {
    const { rows } = costTable([costs]);
    expect(rows.reduce((sum, row) => sum + (row.costs[0] ?? 0), 0)).toBe(costs.total);
  }
});

test("a column whose costs are not known stays empty, and nothing at all has a scale", () => {
  expect(costTable([undefined, dear]).rows).toEqual([{ cause: "rub", costs: [undefined, 45] }]);
  expect(costTable([undefined])).toEqual({ rows: [], most: 1 });
});
