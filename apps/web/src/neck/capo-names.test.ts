/** Both names of a chord over a capo. */
import { parseChord } from "@halflap/theory/parse-chord";
import { fret } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { heldName } from "./capo-names.ts";

// A capo on fret n raises every open chord by n semitones (common practice, no source).
test.each([
  ["F7", 3, "D7"],
  ["Bb", 1, "A"],
  ["F7/C", 3, "D7/A"],
  ["F#m7", 2, "Em7"],
  ["C6/9", 2, "Bb69"],
  ["G7", 0, undefined],
])("%s over capo %i is held as %s", (symbol, capo, held) => {
  const reading = parseChord(symbol);
  if (!reading.ok || reading.value.kind !== "chord") throw new Error(symbol);
  expect(heldName(reading.value, fret(capo))).toBe(held);
});
