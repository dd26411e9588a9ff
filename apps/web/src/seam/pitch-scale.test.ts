/** The seam's scale: everything fits, higher is higher. */
import { midiNote } from "@halflap/theory/units";
import fc from "fast-check";
import { expect, test } from "vitest";
import { fittedScale, heightOf, ruledPitches, seamHeight, steadyScale } from "./pitch-scale.ts";

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

test("the scale grows at once, and keeps still while little of it is empty", () => {
  const drawn = { low: 40, high: 70 };
  expect(steadyScale(undefined, drawn)).toEqual(drawn);
  expect(steadyScale(drawn, { low: 43, high: 66 })).toBe(drawn);
  expect(steadyScale(drawn, { low: 44, high: 66 })).toEqual({ low: 44, high: 66 });
  expect(steadyScale(drawn, { low: 39, high: 68 })).toEqual({ low: 39, high: 68 });
  expect(steadyScale(drawn, { low: 41, high: 71 })).toEqual({ low: 41, high: 71 });
});

test("the ruled lines are the Cs inside the scale", () => {
  expect(ruledPitches({ low: 45, high: 72 })).toEqual([48, 60, 72]);
});
