/** Bars in a row of which a rule says the same, for one finding over all of them. */
import type { BarAim } from "@halflap/board/board";
import { hasAim, type Segment } from "./segments.ts";
import type { CheckedBar, CheckedPassage } from "./tune.ts";
import { counted } from "./words.ts";

export type BarRun<Verdict> = {
  readonly verdict: Verdict;
  readonly bars: readonly CheckedBar[];
  /** Of all its bars, in order. */
  readonly segments: readonly Segment[];
};

/** The longest runs of bars with one verdict; a bar without a verdict ends a run. */
export function barRuns<Verdict extends string>(
  passage: CheckedPassage,
  verdictOf: (bar: CheckedBar) => Verdict | undefined,
): readonly BarRun<Verdict>[] {
  const runs: { readonly verdict: Verdict; readonly bars: CheckedBar[] }[] = [];
  let last: Verdict | undefined;
  for (const bar of passage.bars) {
    const verdict = verdictOf(bar);
    if (verdict !== undefined && verdict === last) runs.at(-1)?.bars.push(bar);
    else if (verdict !== undefined) runs.push({ verdict, bars: [bar] });
    last = verdict;
  }
  return runs.map((run) => ({ ...run, segments: run.bars.flatMap((bar) => bar.segments) }));
}

/** Whether the band means the bar to be so. */
export function isMeantAs(bar: CheckedBar, ...aims: readonly BarAim[]): boolean {
  return hasAim({ aims: bar.played.aims ?? [] }, ...aims);
}

/** "In this bar" or "For three bars", to begin a sentence. */
export function forBars(run: Pick<BarRun<unknown>, "bars">): string {
  return run.bars.length === 1 ? "In this bar" : `For ${counted(run.bars.length)} bars`;
}

/** The mean of a measure over the bars of a run. */
export function meanOver(
  run: Pick<BarRun<unknown>, "bars">,
  measure: (bar: CheckedBar) => number,
): number {
  return run.bars.reduce((sum, bar) => sum + measure(bar), 0) / run.bars.length;
}
