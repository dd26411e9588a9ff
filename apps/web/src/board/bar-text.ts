/** A bar's chords as they are typed: one symbol a beat, a dot where the one before it holds. */
import type { Bar, Meter } from "@halflap/board/board";
import { printBarText } from "@halflap/board/chart-text";

/** The text that the bar writer opens with; empty for a bar without chords. */
export function barText(bar: Bar, meter: Meter): string {
  return bar.slots.length === 0 ? "" : printBarText(bar, meter);
}
