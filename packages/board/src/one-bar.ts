/** One bar of a chart as it is typed, and read again. */
import type { Reading } from "@halflap/theory/chord";
import type { Ticks } from "@halflap/theory/units";
import { printBarWords, type SlotText } from "./bar-text.ts";
import type { Bar, Meter } from "./board.ts";
import { readBarOf } from "./chart-bars.ts";
import type { ChartProblem } from "./chart-problem.ts";
import { isHeld } from "./ids.ts";

/**
 * The slots of one bar, "Gm7 . C7 .". A bar that starts with a dot goes on with the chord before it
 * and has no slot at its start.
 */
export function parseBarText(
  text: string,
  barLength: Ticks,
  meter: Meter,
): Reading<readonly SlotText[], ChartProblem> {
  const bar = readBarOf(text, barLength, meter);
  if (bar.ok) return bar;
  const [first] = bar.error;
  const problem = first ?? { column: 0, read: text, words: "This bar can't be read." };
  return { ok: false, error: { ...problem, line: 1, column: problem.column + 1 } };
}

/** One bar as it would be typed, without bar lines. */
export function printBarText(bar: Bar, meter: Meter): string {
  const slots = bar.slots.filter(({ id }) => !isHeld(id));
  return printBarWords(slots.map(slotText), bar.length, meter);
}

/** A slot as it is written down. */
export function slotText(slot: Bar["slots"][number]): SlotText {
  return { at: slot.start, chord: slot.text };
}
