/** One bar as it is typed, `Gm7 . C7 .`: chords and dots that share the bar evenly. */
import { type Ticks, ticks } from "@halflap/theory/units";
import type { Meter } from "./board.ts";
import { barLengthOf, beatOf, meterOfBar, printMeter } from "./meter.ts";

/** A word of a bar: a chord as typed, or a hold. `column` is where it starts, 0-based. */
export type Word = { readonly text: string; readonly column: number; readonly hold: boolean };

/** What a bar says of its slots: where a chord starts, and as which chord. */
export type SlotText = { readonly at: Ticks; readonly chord: string };

const hold = /^[./-]$/;
const commas = /,+$/;

/**
 * The words of a piece of a line; "..." is three holds, and `/` or `-` alone holds as a dot does.
 * A comma after a word is no part of it.
 */
export function wordsOf(text: string, offset: number): readonly Word[] {
  return [...text.matchAll(/\S+/g)].flatMap((match) => {
    const column = offset + match.index;
    const word = match[0].replace(commas, "");
    if (word === "") return [];
    const dots = word.replaceAll("…", "...");
    if (/^\.+$/.test(dots)) return [...dots].map((dot) => ({ text: dot, column, hold: true }));
    return [{ text: word, column, hold: hold.test(word) }];
  });
}

/**
 * How long each of `count` words lasts: an even share of the bar that is a whole number of beats or
 * goes into a beat a whole number of times. undefined where the bar can't be shared so.
 */
export function shareOf(length: Ticks, count: number, meter: Meter): Ticks | undefined {
  const share = length / count;
  const beat = beatOf(meter);
  const even = Number.isInteger(share) && (share % beat === 0 || beat % share === 0);
  return even ? ticks(share) : undefined;
}

/**
 * A bar as text: as few words as say where each chord starts. A chord that goes on from the bar
 * before is a dot. Reading it back with the same length and meter gives the same slots.
 */
export function printBarWords(slots: readonly SlotText[], length: Ticks, meter: Meter): string {
  const own = meterOfBar(length, meter);
  const words = Array.from({ length: fewestWords(slots, length, own) }, () => ".");
  for (const slot of slots) words[(slot.at * words.length) / length] = oneWord(slot.chord);
  return words.join(" ");
}

/** The bar's own meter in front, where it differs from the tune's: "2/4 F7 .". */
export function printOwnMeter(length: Ticks, meter: Meter): string {
  return length === barLengthOf(meter) ? "" : `${printMeter(meterOfBar(length, meter))} `;
}

function fewestWords(slots: readonly SlotText[], length: Ticks, meter: Meter): number {
  for (let count = 1; count < length; count += 1) {
    const share = shareOf(length, count, meter);
    if (share !== undefined && slots.every(({ at }) => at % share === 0)) return count;
  }
  return length;
}

/** A text that is no chord may hold what a chart line can't: it is printed without. */
function oneWord(chord: string): string {
  const word = chord.replace(/[\s|]/g, "").replace(commas, "");
  return word === "" || hold.test(word) || word === "%" ? "?" : word;
}
