/** Where something stands in a section, in words: "bar 4, beat 3½". */
import type { Bar } from "@halflap/board/board";
import { singingWords } from "../words/singing.ts";
import { startsOf } from "./sung-cells.ts";

const halves: Readonly<Record<string, string>> = { "0.25": "¼", "0.5": "½", "0.75": "¾" };

/** The bar and beat of a place, which counts in ticks from the start of the section. */
export function placeWords(bars: readonly Bar[], at: number, beat: number): string {
  const starts = startsOf(bars);
  const bar = bars.filter((each) => (starts.get(each.id) ?? 0) <= at).at(-1);
  if (bar === undefined) return singingWords.sectionEnd;
  const within = at - (starts.get(bar.id) ?? 0);
  if (within >= bar.length) return singingWords.sectionEnd;
  return singingWords.place(bar.number, beatWords(within / beat + 1));
}

/** "3½"; other parts of a beat in decimals. */
export function beatWords(beats: number): string {
  const whole = Math.floor(beats);
  const part = beats - whole;
  if (part === 0) return String(whole);
  return halves[String(part)] === undefined ? beats.toFixed(2) : `${whole}${halves[String(part)]}`;
}
