/** The ids of everything in the chart that a lane may name, in reading order. */
import type { Ticks } from "@halflap/theory/units";
import type { FormEntry, Section } from "./board.ts";

export type ChartIds = {
  readonly sections: readonly string[];
  readonly bars: readonly string[];
  readonly slots: readonly string[];
  readonly entries: readonly string[];
  /** How long the bars are, as far as they stand: what starts later than that has no place. */
  readonly lengths: ReadonlyMap<string, Ticks>;
};

/** The ids of a chart and its form: what hangs on them comes in this order in a lane. */
export function idsOf(sections: readonly Section[], form: readonly FormEntry[]): ChartIds {
  const bars = sections.flatMap((section) => section.bars);
  return {
    sections: sections.map(({ id }) => id),
    entries: form.map(({ id }) => id),
    bars: bars.map((bar) => bar.id),
    lengths: new Map(bars.map((bar) => [bar.id, bar.length])),
    slots: bars.flatMap((bar) => bar.slots.map((slot) => slot.id)),
  };
}
