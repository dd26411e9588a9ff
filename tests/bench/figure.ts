/** A measured figure: what it is, what it may be, and what it is compared with. */

export type Figure = {
  readonly name: string;
  /** x = times as fast as real time, of which more is better. */
  readonly unit: "ms" | "KB" | "x" | "%" | "samples" | "semitones";
  readonly value: number;
  /** At most this, of x at least; undefined where we only watch. */
  readonly budget: number | undefined;
  /** The same thing done plainly, measured in the same run. */
  readonly baseline: { readonly name: string; readonly value: number };
};

/** The value below which `share` of the samples lie, 0.5 = the median. */
export function percentile(samples: readonly number[], share: number): number {
  const sorted = [...samples].sort((a, b) => a - b);
  const index = Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1);
  const value = sorted[Math.max(0, index)];
  if (value === undefined) throw new Error("no samples");
  return value;
}

/** How long `work` takes, in ms, over many runs after some that warm up. */
export function timed(
  runs: number,
  work: () => void,
  warmUps: number = Math.ceil(runs / 5),
): readonly number[] {
  for (let run = 0; run < warmUps; run += 1) work();
  return Array.from({ length: runs }, () => {
    const startedAt = performance.now();
    work();
    return performance.now() - startedAt;
  });
}

/** One figure as lines of text. */
export function told(figure: Figure): string {
  const { name, unit, value, budget, baseline } = figure;
  const ratio = value / baseline.value;
  const isWithin = budget === undefined || (unit === "x" ? value >= budget : value <= budget);
  const verdict = budget === undefined ? "" : isWithin ? "within" : unit === "x" ? "UNDER" : "OVER";
  const limit = budget === undefined ? "" : `  (${verdict} the budget of ${budget} ${unit})`;
  return [
    `${name}: ${value.toFixed(2)} ${unit}${limit}`,
    `    ${ratio.toFixed(2)} times ${baseline.name} (${baseline.value.toFixed(2)} ${unit})`,
  ].join("\n");
}
