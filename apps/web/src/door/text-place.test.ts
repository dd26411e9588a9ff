/** Lines and columns of a text, counted as people count them. */
import { expect, test } from "vitest";
import { corrected, offsetOf } from "./text-place.ts";

const chart = "F, 104\n\n| F7 | Bb77 |\n| C7 | Bb77 |\n";

test("a place is found by line and column, both from 1", () => {
  expect(chart.slice(offsetOf(chart, { line: 3, column: 8 }))).toMatch(/^Bb77 \|\n\| C7/);
  expect(offsetOf(chart, { line: 1, column: 1 })).toBe(0);
});

test("a place beyond the text is its end", () => {
  expect(offsetOf(chart, { line: 9, column: 1 })).toBe(chart.length);
});

test("a correction changes what was read at its place and nothing else", () => {
  expect(corrected(chart, { line: 4, column: 8 }, "Bb77", "Bb7")).toBe(
    "F, 104\n\n| F7 | Bb77 |\n| C7 | Bb7 |\n",
  );
});
