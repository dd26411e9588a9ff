/** Lines of bars: nothing is split, lost or squeezed. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { barsInLine, linesOf, slotWidthMin } from "./lines.ts";

describe("bars in a line", () => {
  test.each([
    [320, 1, 2],
    [299, 1, 1],
    [340, 2, 2],
    [720, 1, 4],
    [700, 2, 4],
    [700, 4, 2],
    [340, 4, 1],
    [2000, 1, 4],
  ])("%i px with at most %i slots a bar: %i", (width, slots, perLine) => {
    expect(barsInLine(width, slots)).toBe(perLine);
  });

  test("no slot is narrower than it reads, unless one bar alone is too wide for the page", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 300, max: 2600 }),
        fc.integer({ min: 1, max: 8 }),
        (width, slots) => {
          const perLine = barsInLine(width, slots);
          expect(perLine === 1 || width / perLine / slots >= slotWidthMin).toBe(true);
        },
      ),
    );
  });
});

test("cutting into lines loses nothing and keeps the order", () => {
  fc.assert(
    fc.property(fc.array(fc.integer()), fc.constantFrom(1, 2, 4), (bars, perLine) => {
      const lines = linesOf(bars, perLine);
      expect(lines.flat()).toEqual(bars);
      expect(lines.every((line) => line.length > 0 && line.length <= perLine)).toBe(true);
    }),
  );
});
