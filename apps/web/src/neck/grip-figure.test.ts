/** The window a small diagram shows. */
import { parseGrip } from "@halflap/theory/grip";
import { defaultSetup, type Setup } from "@halflap/theory/tuning";
import { fret } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { gripFigure } from "./grip-figure.ts";

function figureOf(text: string, setup: Setup = defaultSetup) {
  const reading = parseGrip(text, setup);
  if (!reading.ok) throw new Error(text);
  return gripFigure(reading.value, setup);
}

describe("the figure of a grip", () => {
  test("starts at the nut while the grip fits into four frets", () => {
    const figure = figureOf("x-x-3-2-4-x");
    expect(figure).toMatchObject({ skipped: 0, columns: 4, label: undefined });
    expect(figure.pegs.map((peg) => [peg.string, peg.column])).toEqual([
      [4, 3],
      [3, 2],
      [2, 4],
    ]);
  });

  test("moves up the neck with the grip and names its first fret", () => {
    expect(figureOf("x-x-x-x-8-10")).toMatchObject({ skipped: 7, columns: 4, label: 8 });
  });

  test("keeps an open string apart from a window up the neck", () => {
    const columns = figureOf("0-x-9-9-x-x").pegs.map((peg) => peg.column);
    expect(columns).toEqual([0, 1, 1]);
  });

  test("grows for a stretch of more than four frets", () => {
    expect(figureOf("x-x-5-x-10-x").columns).toBe(6);
  });

  test("counts from the capo", () => {
    const setup = { ...defaultSetup, capo: fret(3), fretsFrom: "nut" as const };
    const figure = figureOf("x-x-3-5-4-5", setup);
    expect(figure.pegs.map((peg) => peg.column)).toEqual([0, 2, 1, 2]);
    expect(figure.skipped).toBe(0);
  });

  test("shows an empty window for open strings alone", () => {
    expect(figureOf("x-x-0-0-0-x")).toMatchObject({ columns: 4, skipped: 0 });
  });
});
