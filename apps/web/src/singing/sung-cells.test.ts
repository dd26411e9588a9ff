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

  test("a phrase that grows to the front keeps its melody where it sounds", () => {
    const { put } = change([phrase("p", "b1", 48, 48)], 24, 48, true);
    const later = { ...note, start: ticks(24) };
    expect(put).toMatchObject([{ id: "p", start: 24, length: 72, melody: [later] }]);
  });

  test("a pickup stands in the bar before, and the notes in the next as they did", () => {
    const { put } = change([phrase("p", "b2", 0, 48)], 168, 192, true);
    const later = { ...note, start: ticks(24) };
    expect(put).toMatchObject([{ id: "p", bar: "b1", start: 168, length: 72, melody: [later] }]);
  });

  test("two phrases that are joined become the first, with both melodies", () => {
    const two = [phrase("p", "b1", 0, 48), phrase("q", "b1", 96, 48)];
    const { put, remove } = change(two, 48, 96, true);
    const melody = [note, { ...note, start: ticks(96) }];
    expect(put).toMatchObject([{ id: "p", start: 0, length: 144, melody }]);
    expect(remove).toEqual(["q"]);
  });

  test("of notes at once in phrases that are joined the first counts", () => {
    const two = [phrase("p", "b1", 0, 48), phrase("q", "b1", 24, 48)];
    const { put, remove } = change(two, 72, 96, true);
    expect(put).toMatchObject([{ id: "q", start: 24, length: 72, melody: [note] }]);
    expect(remove).toEqual([]);
    expect(change(two, 0, 72, true)).toMatchObject({
      put: [{ id: "p", start: 0, length: 72, melody: [note] }],
      remove: ["q"],
    });
  });

  test("phrases that touch stay two while other half beats are turned", () => {
    const two = [phrase("p", "b1", 0, 48), phrase("q", "b1", 48, 48)];
    for (const isSung of [true, false]) {
      const { put, remove } = change(two, 336, 384, isSung);
      expect(put).toHaveLength(isSung ? 1 : 0);
      expect(remove).toEqual([]);
    }
    expect(change(two, 96, 120, true)).toMatchObject({
      put: [{ id: "q", start: 48, length: 72, melody: [note] }],
      remove: [],
    });
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
    for (const [from, start] of [
      [48, 0],
      [0, 48],
    ] as const) {
      const { put } = change([long], from, from + 48, false);
      expect(put).toMatchObject([{ id: "p", start, length: 48, melody: [note] }]);
    }
  });

  test("a whole phrase taken away is removed; others are not touched", () => {
    const two = [phrase("p", "b1", 0, 48), phrase("q", "b2", 0, 48)];
    expect(change(two, 0, 48, false)).toEqual({ put: [], remove: ["p"] });
  });
});
