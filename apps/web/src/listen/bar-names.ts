/** Bars by the number that stands on them, and what a loop is called. */
import type { Bar, BarId, Board, Section } from "@halflap/board/board";
import { listenWords } from "../words/listen.ts";
import type { Loop } from "./order-of-play.ts";

type Chart = Pick<Board, "sections">;

/** A bar with its section; undefined when it is gone. */
export function barWithSection(
  { sections }: Chart,
  bar: BarId | undefined,
): { readonly bar: Bar; readonly section: Section } | undefined {
  for (const section of sections) {
    const found = section.bars.find((each) => each.id === bar);
    if (found) return { bar: found, section };
  }
  return undefined;
}

/** The bar of a number, or the nearest there is; undefined on an empty board. */
export function barOfNumber({ sections }: Chart, number: number): Bar | undefined {
  const bars = sections.flatMap((section) => section.bars);
  return bars[Math.max(0, Math.min(bars.length - 1, Math.round(number) - 1))];
}

/** From the given bar to the last of its section. */
export function restOfSection(chart: Chart, bar: BarId | undefined): Loop | undefined {
  const from = barWithSection(chart, bar) ?? barWithSection(chart, barOfNumber(chart, 1)?.id);
  const last = from?.section.bars.at(-1);
  return from && last && { kind: "bars", from: from.bar.id, to: last.id };
}

/** The first and the last of some bars in chart order; undefined when all are gone. */
export function chartEnds(
  { sections }: Chart,
  bars: readonly BarId[],
): { readonly from: BarId; readonly to: BarId } | undefined {
  const standing = sections
    .flatMap((section) => section.bars)
    .filter(({ id }) => bars.includes(id));
  const [first, last] = [standing[0], standing.at(-1)];
  return first && last && { from: first.id, to: last.id };
}

/** "Verse", "Bars 5 to 8"; undefined without a loop, or when its bars are gone. */
export function loopName(chart: Chart, loop: Loop | undefined): string | undefined {
  if (loop?.kind === "section") {
    return chart.sections.find(({ id }) => id === loop.section)?.name;
  }
  const from = barWithSection(chart, loop?.from)?.bar.number;
  const to = barWithSection(chart, loop?.to)?.bar.number;
  return from !== undefined && to !== undefined ? listenWords.stretch(from, to) : undefined;
}
