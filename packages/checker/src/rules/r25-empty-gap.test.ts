/** R25: gaps that nobody fills, at and beside its limits. Limits ours. */
import { expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

const bar: Played = ["C", "x-x-x-x-8-8", "x-3-2-0-x-x"];

/** Three bars, sung on their first beats: three gaps. */
function gaps(beats: number, more: Partial<SmallBoard> = {}) {
  const phrases = [1, 2, 3].map((number) => ({ bar: number, beat: 1, beats }));
  return check(smallBoard({ sections: bars(bar, bar, bar), phrases, ...more })).filter(
    ({ rule }) => rule === "R25",
  );
}

test("R25 gaps of two beats that stay empty are one note over all of them", () => {
  expect(gaps(2)).toMatchObject([
    {
      ...{ severity: "note", measured: 3, threshold: 2, lanes: ["upper", "lower"] },
      bars: ["b1", "b2", "b3"],
      words: "Three gaps in a row stay empty: answer the voice, or leave them open on purpose.",
    },
  ]);
});

test("R25 shorter gaps are no place for a fill", () => expect(gaps(2.25)).toEqual([]));

test("R25 one empty gap is nothing, two are a note", () => {
  const fill = (number: number) => ({ bar: number, beat: 3, beats: 1 });
  expect(gaps(2, { fills: { upper: [fill(2)] } })).toEqual([]);
  expect(gaps(2, { fills: { lower: [fill(3)] } })).toMatchObject([{ measured: 2 }]);
});

test("R25 a line answers too, and a gap left open on purpose is not empty", () => {
  const line = { bar: 2, beat: 3, beats: 1, kind: "line" } as const;
  expect(gaps(2, { fills: { upper: [line] } })).toEqual([]);
  expect(gaps(2, { gapOwners: [{ bar: 2, beat: 3, owner: "open" }] })).toEqual([]);
});

test("R25 names the one whose gaps they are", () => {
  const gapOwners = [1, 2, 3].map((number) => ({ bar: number, beat: 3, owner: "upper" }) as const);
  expect(gaps(2, { gapOwners })).toMatchObject([{ lanes: ["upper"] }]);
});

test("R25 waits until some grip or fill is written in the passage", () => {
  const nothing: Played = ["C", "-", "-"];
  const sections = bars(nothing, nothing, nothing);
  expect(gaps(2, { sections })).toEqual([]);
  expect(gaps(2, { sections: bars(nothing, bar, nothing) })).toHaveLength(1);
  const fills = { upper: [{ bar: 1, beat: 3, beats: 1 }] };
  expect(gaps(2, { sections, fills })).toMatchObject([{ measured: 2 }]);
});
