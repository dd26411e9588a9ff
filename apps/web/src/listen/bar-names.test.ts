/** Bars by the numbers on them, and what a loop is called, on the demo tune. */
import type { BarId } from "@halflap/board/board";
import { fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { expect, test } from "vitest";
import { barOfNumber, chartEnds, loopName, restOfSection } from "./bar-names.ts";

const documents = emptyDocuments();
fillDocuments(documents, demoSolution());
const board = makeReader(documents)();
const bar = (number: number) => barOfNumber(board, number)?.id ?? ("" as BarId);

test("a number beyond the chart means its first or last bar", () => {
  const last = board.sections.flatMap((section) => section.bars).length;
  expect(barOfNumber(board, 6)?.number).toBe(6);
  expect(barOfNumber(board, -3)?.number).toBe(1);
  expect(barOfNumber(board, 9999)?.number).toBe(last);
  expect(barOfNumber({ sections: [] }, 1)).toBeUndefined();
});

test("a loop starts as the rest of the section one stands in", () => {
  expect(loopName(board, restOfSection(board, bar(7)))).toBe("Bars 7 to 12");
  expect(loopName(board, restOfSection(board, undefined))).toBe("Bars 1 to 4");
  expect(restOfSection({ sections: [] }, undefined)).toBeUndefined();
});

test("a loop whose bars are gone has no name", () => {
  const verse = board.sections[1];
  expect(verse && loopName(board, { kind: "section", section: verse.id })).toBe("Verse");
  const gone = { kind: "bars", from: "gone" as BarId, to: bar(2) } as const;
  expect(loopName(board, gone)).toBeUndefined();
  expect(loopName(board, undefined)).toBeUndefined();
});

test("the ends of some bars come in chart order, whatever order they are told in", () => {
  const ends = chartEnds(board, [bar(9), bar(3), "gone" as BarId, bar(5)]);
  expect(ends).toEqual({ from: bar(3), to: bar(9) });
  expect(chartEnds(board, ["gone" as BarId])).toBeUndefined();
});
