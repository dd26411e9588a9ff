/** The board goes to paper: what the screen does not show is drawn, in lines for a sheet. */
import { type Accessor, createSignal, onCleanup } from "solid-js";
import { barsInLine } from "./lines.ts";

/** In CSS pixels: A4 less margins and the lanes' names. The narrower of the sheets we print on. */
const sheetBarsWidth = 646;

/** How many bars of a section stand in a line on paper; A4 and Letter alike. */
export function barsInPrintedLine(slotsMax: number): 1 | 2 | 4 {
  return barsInLine(sheetBarsWidth, slotsMax);
}

/**
 * True from before a print until after it. Lines are cut anew for paper and back, so the place that
 * had the keys is another element afterwards: it gets them again.
 */
export function createPrinted(): Accessor<boolean> {
  const [isPrinted, setPrinted] = createSignal(false);
  let focused = "";
  const onBefore = () => {
    focused = document.activeElement?.id ?? "";
    setPrinted(true);
  };
  const onAfter = () => {
    setPrinted(false);
    document.getElementById(focused)?.focus({ preventScroll: true });
  };
  addEventListener("beforeprint", onBefore);
  addEventListener("afterprint", onAfter);
  onCleanup(() => {
    removeEventListener("beforeprint", onBefore);
    removeEventListener("afterprint", onAfter);
  });
  return isPrinted;
}
