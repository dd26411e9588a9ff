/** The figures as lines: each server's value, our ratio to each baseline, and whether it keeps. */
import { percentile } from "../figure.ts";

export type Measured = { readonly [name in "ours" | "reference" | "broadcast"]?: number };

/** At most, or at least, so much: a value of ours, or its ratio to a baseline's. */
export type Budget = {
  readonly of: "ours" | "reference" | "broadcast";
  readonly at: "most" | "least";
  readonly value: number;
};

/** One figure. Values are told in the unit; ratios have none. */
export function line(
  name: string,
  unit: string,
  measured: Measured,
  budgets: readonly Budget[] = [],
): string {
  const values = Object.entries(measured).map(([who, value]) => `${who} ${shown(value)}`);
  const verdicts = budgets.map((budget) => `    ${verdict(measured, budget)}`);
  return [`${name}: ${values.join(", ")} ${unit}`, ...verdicts].join("\n");
}

/** The middle of what several rounds measured. */
export function middle(values: readonly number[]): number {
  return percentile(values, 0.5);
}

function verdict(measured: Measured, { of, at, value }: Budget): string {
  const ours = measured.ours ?? Number.NaN;
  const judged = of === "ours" ? ours : ours / (measured[of] ?? Number.NaN);
  const keeps = at === "most" ? judged <= value : judged >= value;
  const what = of === "ours" ? "" : ` times the ${of}`;
  return `${keeps ? "within" : "NOT WITHIN"}: ${shown(judged)}${what}, at ${at} ${value}`;
}

function shown(value: number): string {
  return value >= 1000 ? Math.round(value).toString() : value.toPrecision(3);
}
