/** Costs of several parts side by side: a row for each cause, on one scale. */
import type { Costs } from "@halflap/fitter/answer";
import { type CauseName, causeNames } from "@halflap/fitter/weights";

/** One cause through all columns; undefined where a column has no costs. */
export type CostRow = {
  readonly cause: CauseName;
  readonly costs: readonly (number | undefined)[];
};

export type CostTable = {
  /** The causes that cost something anywhere, what costs most in one place first. */
  readonly rows: readonly CostRow[];
  /** The longest bar of the rows, in semitones; never 0. */
  readonly most: number;
};

/** The table of some columns; an unknown column stays empty. */
export function costTable(columns: readonly (Costs | undefined)[]): CostTable {
  const rows = causeNames
    .map((cause) => ({ cause, costs: columns.map((column) => column && costFor(column, cause)) }))
    .filter(({ costs }) => dearest(costs) > 0)
    .sort((a, b) => dearest(b.costs) - dearest(a.costs));
  return { rows, most: Math.max(1, ...rows.map(({ costs }) => dearest(costs))) };
}

/** What a cause costs; 0 where it is not named. */
function costFor(costs: Costs, cause: CauseName): number {
  return costs.causes.find((each) => each.cause === cause)?.cost ?? 0;
}

function dearest(costs: readonly (number | undefined)[]): number {
  return Math.max(0, ...costs.map((cost) => cost ?? 0));
}
