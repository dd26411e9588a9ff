/** Rules that look at a bar and the one after it only: what they said is kept per bar. */
import type { Hit, PassageRule } from "./hit.ts";
import type { CheckedBar, CheckedPassage, Tune } from "./tune.ts";

/** What a rule says about a bar with the bars that may come after it. */
export type BarRule = (bar: CheckedBar, ahead: readonly CheckedBar[], tune: Tune) => readonly Hit[];

type Remembered = { readonly ahead: readonly CheckedBar[]; readonly hits: readonly Hit[] };

/**
 * The rule about a passage that asks again only where a bar or the next one changed. With another
 * frame all bars are made anew, so the frame need not be compared.
 */
export function barByBar(ask: BarRule): PassageRule {
  const known = new WeakMap<CheckedBar, Remembered>();
  return (passage, tune) =>
    passage.bars.flatMap((bar, index) => {
      const ahead = barsAhead(passage, index);
      const last = known.get(bar);
      if (last !== undefined && sameBars(last.ahead, ahead)) return last.hits;
      const hits = ask(bar, ahead, tune);
      known.set(bar, { ahead, hits });
      return hits;
    });
}

/** The bars that may come after one: the next, or past the end one for each way on. */
export function barsAhead(passage: CheckedPassage, index: number): readonly CheckedBar[] {
  const next = passage.bars[index + 1];
  return next === undefined ? passage.following : [next];
}

/** Whether a bar ahead lies in the same passage: past the end the next one begins at 0. */
export function isSamePassage(bar: CheckedBar, ahead: CheckedBar): boolean {
  return ahead.played.start > bar.played.start;
}

/** Whether two lists hold the same bars. */
export function sameBars(a: readonly CheckedBar[], b: readonly CheckedBar[]): boolean {
  return a.length === b.length && a.every((bar, index) => bar === b[index]);
}
