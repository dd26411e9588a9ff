/** The seam's figure of a slot, against registers worked out by hand. */
import { type MidiNote, midiNote } from "@halflap/theory/units";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { seamFigure } from "./seam-figure.ts";

const pitches = (...numbers: number[]): MidiNote[] => numbers.map(midiNote);

describe("the figure of a slot", () => {
  test("registers that lie apart close flush", () => {
    const figure = seamFigure(pitches(67, 72), pitches(53, 57, 63));
    expect(figure.overlap).toBeUndefined();
    expect(figure.doubled).toEqual([]);
    expect(figure.notes.every((note) => note.part === "whole")).toBe(true);
  });

  test("a shared pitch is halved, and one shared edge is an overlap of one pitch", () => {
    const figure = seamFigure(pitches(60, 64), pitches(55, 60));
    expect(figure.doubled).toEqual([60]);
    expect(figure.overlap).toEqual({ low: 60, high: 60 });
    expect(figure.notes.filter((note) => note.pitch === 60).map((note) => note.part)).toEqual([
      "first",
      "second",
    ]);
  });

  test("one register inside the other", () => {
    expect(seamFigure(pitches(55, 58), pitches(48, 60)).overlap).toEqual({ low: 55, high: 58 });
  });

  test("silence on one side has no register and no overlap", () => {
    const figure = seamFigure([], pitches(48, 60));
    expect(figure.registers.upper).toBeUndefined();
    expect(figure.overlap).toBeUndefined();
  });

  test("every pitch of both lanes is drawn once", () => {
    const grip = fc.uniqueArray(fc.integer({ min: 40, max: 88 }), { maxLength: 6 });
    fc.assert(
      fc.property(grip, grip, (above, below) => {
        const sort = (numbers: number[]) => pitches(...numbers.sort((a, b) => a - b));
        const figure = seamFigure(sort(above), sort(below));
        expect(figure.notes.length).toBe(above.length + below.length);
        expect(figure.doubled.length).toBe(above.filter((p) => below.includes(p)).length);
      }),
    );
  });
});
