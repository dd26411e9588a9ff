/** Writing a fill on the grid: notes last to the next one, and never into it. */
import { printFillText } from "@halflap/board/fill-text";
import { barId, fillId } from "@halflap/board/ids";
import type { Fill, FillNote } from "@halflap/board/playing";
import { fret, ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import * as tab from "./tab-grid.ts";

const beat = ticks(48);

function fill(notes: readonly FillNote[] = [], length = 96): Fill {
  return {
    ...{ id: fillId("f1"), bar: barId("b1"), start: ticks(96), length: ticks(length) },
    ...{ kind: "fill", together: false, notes },
  };
}
const at = (start: number, string: tab.Crossing["string"]) => ({ start: ticks(start), string });
const text = (made: Fill) => printFillText(made.notes, { ...made, beat });
const put = (made: Fill, start: number, string: tab.Crossing["string"], typed: number): Fill => ({
  ...made,
  notes: tab.withFret(made, at(start, string), fret(typed)),
});

describe("a fret on a crossing", () => {
  test("lasts to the next note, and is cut when one comes between", () => {
    const two = put(put(fill(), 0, 2, 10), 72, 1, 8);
    expect(two.notes.map(({ length }) => length)).toEqual([72, 24]);
    const three = put(two, 24, 2, 12);
    expect(three.notes.map(({ length }) => length)).toEqual([24, 48, 24]);
    expect(text(three)).toBe("3 2:10  3.5 2:12  4.5 1:8");
  });

  test("joins others on the same beat, lowest string first", () => {
    expect(text(put(put(fill(), 0, 1, 10), 0, 2, 10))).toBe("3 2:10+1:10");
  });

  test("typed again keeps how the note sounds", () => {
    const bent = { ...fill(), notes: tab.withWay(put(fill(), 0, 3, 9), at(0, 3), "bend") };
    expect(text(bent)).toBe("3 b3:9^2");
    expect(text(put(bent, 0, 3, 7))).toBe("3 b3:7^2");
  });
});

describe("a note of the fill", () => {
  const long = put(put(fill(), 0, 2, 10), 48, 2, 12);

  test("keeps a length of its own, and gives it up again", () => {
    const short = { ...long, notes: tab.withLength(long, at(0, 2), ticks(12)) };
    expect(text(short)).toBe("3 2:10/0.25  4 2:12");
    expect(text(put(short, 24, 1, 8))).toBe("3 2:10/0.25  3.5 1:8  4 2:12");
    expect(text({ ...short, notes: tab.withLength(short, at(0, 2), undefined) })).toBe(text(long));
  });

  test("never lasts into the next on its string, nor out of the fill", () => {
    const wish = { ...long, notes: tab.withLength(long, at(0, 2), ticks(90)) };
    expect(wish.notes.map(({ length }) => length)).toEqual([48, 48]);
    const cut = tab.withFillLength(long, ticks(72));
    expect(cut.notes.map(({ length }) => length)).toEqual([48, 24]);
    expect(tab.withFillLength(long, ticks(48)).notes).toHaveLength(1);
  });

  test("taken away leaves its time to the one before", () => {
    const left = { ...long, notes: tab.without(long, at(48, 2)) };
    expect(left.notes).toMatchObject([{ start: 0, length: 96 }]);
  });
});

test("the grid is as wide as its notes allow, and shows each of them", () => {
  expect(tab.tabStepOf(fill())).toBe(24);
  expect(tab.tabStepOf(put(fill(), 16, 1, 5))).toBe(16);
  expect(tab.tabStepOf(put(put(fill(), 16, 1, 5), 12, 1, 5))).toBe(6);
  expect(tab.columnsOf(put(fill(), 16, 1, 5), ticks(24))).toEqual([0, 16, 24, 48, 72]);
});

describe("keys", () => {
  const press = (key: string) => ({ key, ctrlKey: false, metaKey: false, altKey: false });
  const act = (key: string, typed?: number) => tab.tabKey(press(key), typed);

  test("a digit gives the fret that it makes, if it makes one", () => {
    expect(act("2", 12)).toEqual({ kind: "fret", fret: 12 });
    expect(act("2")).toBeUndefined();
  });

  test("letters say how, arrows walk, other keys are left alone", () => {
    expect(act("h")).toEqual({ kind: "way", way: "hammer-on" });
    expect(act("p")).toEqual({ kind: "way", way: "pull-off" });
    expect(act("r")).toEqual({ kind: "ring" });
    expect(act("ArrowDown")).toEqual({ kind: "walk", columns: 0, strings: 1 });
    expect(act("Delete")).toEqual({ kind: "remove" });
    expect(act("Enter")).toBeUndefined();
    expect(tab.tabKey({ ...press("p"), ctrlKey: true }, undefined)).toBeUndefined();
  });
});

test("a new fill takes the second half of the bar, or the first where only that is free", () => {
  const common = { beats: 4, unit: 4 } as const;
  const second = { start: 96, end: 192 };
  expect(tab.roomForFill(ticks(192), common, [])).toEqual({ start: 96, length: 96 });
  expect(tab.roomForFill(ticks(192), common, [second])).toEqual({ start: 0, length: 96 });
  const waltz = tab.roomForFill(ticks(144), { beats: 3, unit: 4 }, []);
  expect(waltz).toEqual({ start: 96, length: 48 });
  expect(tab.roomForFill(ticks(48), common, [])).toEqual({ start: 0, length: 48 });
});

test("choices of place and length always hold what stands there", () => {
  expect(tab.fillStarts(192, ticks(16))).toContain(16);
  expect(tab.fillLengths(96, ticks(100))).toEqual([24, 48, 72, 96, 100]);
  const two = put(put(fill(), 0, 2, 10), 48, 2, 12);
  const first = two.notes[0];
  expect(first && tab.noteLengths(two, first)).toEqual([12, 24, 36, 48]);
});
