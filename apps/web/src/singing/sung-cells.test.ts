/** Which half beats are sung, and what turning some of them rewrites. */
import type { Bar } from "@halflap/board/board";
import { barId, phraseId } from "@halflap/board/ids";
import type { Phrase } from "@halflap/board/singing";
import { midiNote, ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { cellsOf, changeOf } from "./sung-cells.ts";

const bar = (number: number): Bar => ({
  id: barId(`b${number}`),
  number,
  length: ticks(192),
  rounds: undefined,
  slots: [],
});
const bars = [bar(1), bar(2)];
const beat = ticks(48);
const note = { start: ticks(0), length: ticks(48), pitch: midiNote(60) };

function phrase(id: string, at: string, start: number, length: number): Phrase {
  const place = { bar: barId(at), start: ticks(start), length: ticks(length) };
  return { id: phraseId(id), ...place, melody: [note] };
}

const ids = () => {
  let made = 0;
  return () => {
    made += 1;
    return `new${made}`;
  };
};

describe("cells", () => {
  test("a phrase over the bar line is sung in both bars", () => {
    const rows = cellsOf(bars, [phrase("p", "b1", 144, 96)], beat);
    expect(rows.map((row) => row.map((cell) => cell.sung === "all"))).toEqual([
      [false, false, false, false, false, false, true, true],
      [true, true, false, false, false, false, false, false],
    ]);
  });

  test("half a cell is sung in part", () => {
    const [row] = cellsOf(bars, [phrase("p", "b1", 12, 12)], beat);
    expect(row?.[0]?.sung).toBe("part");
    expect(row?.[1]?.sung).toBe("none");
  });
});

describe("changes", () => {
  const change = (phrases: readonly Phrase[], start: number, end: number, isSung: boolean) =>
    changeOf(bars, phrases, { start, end }, isSung, ids());

  test("a first phrase is new, in the bar in which it starts", () => {
    const { put, remove } = change([], 216, 264, true);
    expect(put).toMatchObject([{ id: "new1", bar: "b2", start: 24, length: 48, melody: [] }]);
    expect(remove).toEqual([]);
  });

  test("a phrase grows at its end and keeps id and melody", () => {
    const { put, remove } = change([phrase("p", "b1", 0, 48)], 48, 96, true);
    expect(put).toMatchObject([{ id: "p", start: 0, length: 96, melody: [note] }]);
    expect(remove).toEqual([]);
  });

  test("a phrase that grows to the front loses its melody, for it would come too early", () => {
    const { put } = change([phrase("p", "b1", 48, 48)], 0, 48, true);
    expect(put).toMatchObject([{ id: "p", start: 0, length: 96, melody: [] }]);
  });

  test("two phrases that touch become the first", () => {
    const two = [phrase("p", "b1", 0, 48), phrase("q", "b1", 96, 48)];
    const { put, remove } = change(two, 48, 96, true);
    expect(put).toMatchObject([{ id: "p", start: 0, length: 144 }]);
    expect(remove).toEqual(["q"]);
  });

  test("cutting out of the middle leaves two, the second of them new", () => {
    const { put, remove } = change([phrase("p", "b1", 0, 144)], 48, 96, false);
    expect(put).toMatchObject([
      { id: "p", start: 0, length: 48 },
      { id: "new1", start: 96, length: 48 },
    ]);
    expect(remove).toEqual([]);
  });

  test("what is cut off takes the notes in it along", () => {
    const long = { ...phrase("p", "b1", 0, 96), melody: [note, { ...note, start: ticks(48) }] };
    const { put } = change([long], 48, 96, false);
    expect(put).toMatchObject([{ id: "p", length: 48, melody: [note] }]);
  });

  test("a whole phrase taken away is removed; others are not touched", () => {
    const two = [phrase("p", "b1", 0, 48), phrase("q", "b2", 0, 48)];
    expect(change(two, 0, 48, false)).toEqual({ put: [], remove: ["p"] });
  });
});
