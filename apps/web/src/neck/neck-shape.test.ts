/** The drawn neck: what is drawn can be hit, either way round. */
import type { StringNumber } from "@halflap/theory/grip";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fretX, inlays, neckSize, pegX, stringY, under } from "./neck-shape.ts";

const shapes = fc.record({ frets: fc.integer({ min: 12, max: 24 }), mirrored: fc.boolean() });
const strings = fc.constantFrom<StringNumber>(1, 2, 3, 4, 5, 6);

describe("the drawn neck", () => {
  test("the middle of a peg lies under its own string and fret", () => {
    fc.assert(
      fc.property(shapes, strings, fc.nat(), (shape, string, any) => {
        const fret = any % (shape.frets + 1);
        expect(under(shape, pegX(shape, fret), stringY(string))).toEqual({ string, fret });
      }),
    );
  });

  test("no space is narrower than a finger's least target of 24 pixels", () => {
    fc.assert(
      fc.property(shapes, (shape) => {
        const last = Math.abs(fretX(shape, shape.frets) - fretX(shape, shape.frets - 1));
        expect(last).toBeGreaterThanOrEqual(24);
      }),
    );
  });

  test("frets close up towards the body", () => {
    const shape = { frets: 22, mirrored: false };
    expect(fretX(shape, 1) - fretX(shape, 0)).toBeGreaterThan(fretX(shape, 12) - fretX(shape, 11));
  });

  test("nothing lies beyond the last fret or off the strings", () => {
    const shape = { frets: 22, mirrored: false };
    const { width, height } = neckSize(shape);
    expect(under(shape, width + 1, stringY(1))).toBeUndefined();
    expect(under(shape, 20, height)).toBeUndefined();
  });

  test("inlays stand where most guitars have them", () => {
    expect([0, 3, 4, 12, 15].map((fret) => (fret === 0 ? 0 : inlays(fret)))).toEqual([
      0, 1, 0, 2, 1,
    ]);
  });
});
