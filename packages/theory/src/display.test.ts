/** Accidentals become signs where they are accidentals, and nowhere else. */
import { expect, test } from "vitest";
import { pretty } from "./display.ts";

test.each([
  ["Bbmaj7", "B♭maj7"],
  ["b3", "♭3"],
  ["1 b3 bb7 #11", "1 ♭3 𝄫7 ♯11"],
  ["Cm7b5", "Cm7♭5"],
  ["C7(b9,#11)", "C7(♭9,♯11)"],
  ["Abm7b5/Ebb", "A♭m7♭5/E𝄫"],
  ["F##7", "F𝄪7"],
  ["F#m", "F♯m"],
  ["Bb3, Eb4", "B♭3, E♭4"],
  ["#iv dim7", "♯iv dim7"],
  ["bVII7", "♭VII7"],
  ["V7/bIII", "V7/♭III"],
  ["Bbadd9", "B♭add9"],
  ["x-x-3-2-4-x, F A Eb, 1 3 b7", "x-x-3-2-4-x, F A E♭, 1 3 ♭7"],
  ["a big tab above bar 3", "a big tab above bar 3"],
  ["Abe and Ebbing Bobby", "Abe and Ebbing Bobby"],
  ["N.C.", "N.C."],
])("%s is shown as %s", (text, shown) => {
  expect(pretty(text)).toBe(shown);
});
