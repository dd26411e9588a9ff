/** Where one step on or back leads: the next section, or as many bars further on. */
import type { BarId, Board, SectionId } from "@halflap/board/board";
import type { Loop } from "./order-of-play.ts";

/** What goes round from now on, and the bar with which it begins. */
export type NextStretch = { readonly loop: Loop | undefined; readonly bar: BarId };

/**
 * From what goes round, else from the section one is in; past the last comes the first. undefined
 * on an empty board.
 */
export function nextStretch(
  { sections }: Pick<Board, "sections">,
  loop: Loop | undefined,
  here: SectionId | undefined,
  step: 1 | -1,
): NextStretch | undefined {
  if (loop?.kind === "bars") {
    const bars = sections.flatMap((section) => section.bars.map(({ id }) => id));
    return barsFurther(bars, loop, step) ?? nextStretch({ sections }, undefined, here, step);
  }
  const filled = sections.filter(({ bars }) => bars.length > 0);
  const from = filled.findIndex(({ id }) => id === (loop?.section ?? here));
  const start = from < 0 && step < 0 ? 0 : from;
  const next = filled[(start + step + filled.length) % filled.length];
  const bar = next?.bars[0]?.id;
  if (next === undefined || bar === undefined) return undefined;
  return { loop: loop && { kind: "section", section: next.id }, bar };
}

/** As many bars as went round, right after or before them; the last ones are never cut short. */
function barsFurther(
  bars: readonly BarId[],
  { from, to }: Extract<Loop, { kind: "bars" }>,
  step: 1 | -1,
): NextStretch | undefined {
  const [first, last] = [bars.indexOf(from), bars.indexOf(to)];
  if (first < 0 || last < first) return undefined;
  const length = last - first + 1;
  const final = bars.length - length;
  const wanted = first + step * length;
  const isPast = step > 0 ? first === final : first === 0;
  const start = isPast ? final - first : Math.max(0, Math.min(final, wanted));
  const [begins, ends] = [bars[start], bars[start + length - 1]];
  return begins && ends && { loop: { kind: "bars", from: begins, to: ends }, bar: begins };
}
