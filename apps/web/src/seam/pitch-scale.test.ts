/** The seam's scale: everything fits, higher is higher. */
import { midiNote } from "@halflap/theory/units";
import fc from "fast-check";
import { expect, test } from "vitest";
import { fittedScale, heightOf, ruledPitches, seamHeight } from "./pitch-scale.ts";

test("every pitch lies inside the seam, and a higher one stands higher", () => {
  const note = fc.integer({ min: 0, max: 127 });
  fc.assert(
    fc.property(fc.array(note, { minLength: 2 }), (numbers) => {
      const scale = fittedScale(numbers.map(midiNote));
      const heights = numbers.map((number) => heightOf(scale, number));
      expect(heights.every((height) => height >= 0 && height <= seamHeight)).toBe(true);
      const [a = 0, b = 0] = numbers;
      expect(Math.sign(heightOf(scale, a) - heightOf(scale, b))).toBe(Math.sign(b - a) + 0);
    }),
  );
});

test("a board with nothing on it still shows two octaves", () => {
  expect(fittedScale([])).toEqual({ low: 45, high: 69 });
});

test("the ruled lines are the Cs inside the scale", () => {
  expect(ruledPitches({ low: 45, high: 72 })).toEqual([48, 60, 72]);
});
