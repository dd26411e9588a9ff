/** Titles and section names: how the lines of a chart carry them, and which of them are one. */
import { parseChord } from "@halflap/theory/parse-chord";
import type { Section } from "./board.ts";
import { plainSigns } from "./chart-lines.ts";
import { nameMax } from "./limits.ts";

/** A title without what would make bars or a form of its line. */
export function printedTitle(title: string): string {
  const line = [...title].map((sign) => (plainSigns(sign) === "|" ? "/" : sign)).join("");
  const form = /^\s*form\s*:/i.exec(plainSigns(line))?.[0];
  const whole = form === undefined ? line : line.replace(":", "");
  return isBlank(whole) ? "" : whole.trim();
}

/** The names of sections as they are printed, each told from the others. */
export function printedNames(sections: readonly Section[]): ReadonlyMap<Section["id"], string> {
  const taken = new Set<string>();
  return new Map(
    sections.map(({ id, name }) => {
      const plain = printedName(name);
      let own = plain;
      for (let i = 2; taken.has(asCompared(own)); i += 1) {
        own = inWords(`${plain.slice(0, nameMax - 10)} ${i}`);
      }
      taken.add(asCompared(own));
      return [id, own] as const;
    }),
  );
}

/** Whether two names are one in a chart: look-alike signs and the case of letters tell nothing. */
export function isSameName(a: string, b: string): boolean {
  return asCompared(a) === asCompared(b);
}

/** Whether a line of words looks like bars without bar lines: chords and nothing else. */
export function looksLikeChords(line: string): boolean {
  const words = plainSigns(line).trim().split(/\s+/);
  return words.length > 1 && words.every((word) => parseChord(word).ok);
}

function printedName(name: string): string {
  const signs = [...name]
    .map((sign) => (/[|=,;:→\s]/.test(plainSigns(sign)) ? " " : sign))
    .join("");
  const words = inWords(
    signs
      .replace(/[-\u2010-\u2015\u2212]>/g, " ")
      .replace(/\s+/g, " ")
      .trim(),
  );
  const own = looksLikeChords(words) || /^form$/i.test(words) ? `Part ${words}` : words;
  // Where a count is left at the end, there is room to put it in words.
  const cut = own.length > nameMax ? inWords(own.slice(0, nameMax - 10).trim()) : own;
  return cut || "Section";
}

/** A form would read "Verse x2" as the verse twice, and a line "x2" is a count. */
function inWords(name: string): string {
  return name
    .replace(/^(\d+)\s*[x×](?=\s|$)/i, "$1 times")
    .replace(/(^|\s+)[x×]\s*(\d+)$/i, "$1times $2")
    .replace(/\s+(\d+)\s*[x×]$/i, " $1 times");
}

function isBlank(text: string): boolean {
  return plainSigns(text).trim() === "";
}

function asCompared(name: string): string {
  return plainSigns(name).toLowerCase();
}
