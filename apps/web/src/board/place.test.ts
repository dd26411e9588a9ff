/** Walking the board: every place can be reached, and every step can be taken back. */
import type { Bar, BarId, SlotId } from "@halflap/board/board";
import { fret, ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { firstPlace, firstToFill, holds, type Place, placeId, slotPlaces, walk } from "./place.ts";

function bar(id: string, starts: readonly number[]): Bar {
  return {
    id: id as BarId,
    number: 1,
    length: ticks(192),
    rounds: undefined,
    slots: starts.map((start, index) => ({
      id: `${id}${index}` as SlotId,
      start: ticks(start),
      length: ticks(48),
      text: "C",
      chord: undefined,
    })),
  };
}

const lines = [
  [bar("a", [0]), bar("b", [0, 96])],
  [bar("c", [0, 96]), bar("d", [])],
  [bar("e", [0])],
];

function slot(lane: "upper" | "lower", barId: string, index: number): Place {
  return { kind: "slot", lane, bar: barId as BarId, slot: `${barId}${index}` as SlotId };
}
const chords = (barId: string): Place => ({ kind: "chords", bar: barId as BarId });

describe("walking", () => {
  test.each<[string, Place, Parameters<typeof walk>[2], Place | undefined]>([
    ["right through slots", slot("upper", "b", 0), "right", slot("upper", "b", 1)],
    ["right into the next line", slot("upper", "b", 1), "right", slot("upper", "c", 0)],
    ["right over a bar without slots", slot("lower", "c", 1), "right", slot("lower", "e", 0)],
    ["left at the start", slot("upper", "a", 0), "left", undefined],
    ["down from the chords", chords("b"), "down", slot("upper", "b", 0)],
    ["down across the seam", slot("upper", "b", 1), "down", slot("lower", "b", 1)],
    ["down into the next line", slot("lower", "a", 0), "down", chords("c")],
    ["down where the line is shorter", slot("lower", "c", 0), "down", chords("e")],
    ["up into the line above, same beat", slot("upper", "b", 1), "up", chords("b")],
    ["up from the chords", chords("c"), "up", slot("lower", "a", 0)],
    ["up into a bar without slots", chords("e"), "up", slot("lower", "c", 0)],
    ["to the end of the line", slot("upper", "a", 0), "line-end", slot("upper", "b", 1)],
    ["to the end of the board", slot("upper", "a", 0), "board-end", slot("upper", "e", 0)],
    ["to the start of the board", chords("e"), "board-start", chords("a")],
    ["from a bar that is gone", chords("z"), "right", undefined],
  ])("%s", (_, from, direction, to) => {
    expect(walk(lines, from, direction)).toEqual(to);
  });

  test("right from the first slot meets every slot once", () => {
    const met: string[] = [];
    for (let at = firstPlace(lines, "lower"); at; at = walk(lines, at, "right")) {
      met.push(placeId(at));
    }
    expect(met).toEqual(slotPlaces(lines.flat(), "lower").map(placeId));
  });

  test("a place is held until its slot or bar is gone", () => {
    expect(holds(lines, slot("upper", "b", 1))).toBe(true);
    expect(holds(lines, slot("upper", "b", 2))).toBe(false);
    expect(holds(lines, chords("d"))).toBe(true);
    expect(holds(lines, chords("z"))).toBe(false);
  });

  test("an empty board has no first place", () => {
    expect(firstPlace([], "upper")).toBeUndefined();
  });
});

test("a lane is taken up at its first slot without a grip, past bars it lays out in", () => {
  const grip = { frets: Array(6).fill(fret(0)) };
  const lane = (gripped: readonly string[], resting: readonly string[]) => ({
    id: "lower" as const,
    grips: new Map(gripped.map((id) => [id as SlotId, grip])),
    layOuts: new Set(resting.map((id) => id as BarId)),
  });
  const bars = lines.flat();
  expect(firstToFill(bars, lane([], []))).toEqual(slot("lower", "a", 0));
  expect(firstToFill(bars, lane(["a0", "b0"], []))).toEqual(slot("lower", "b", 1));
  expect(firstToFill(bars, lane(["a0"], ["b"]))).toEqual(slot("lower", "c", 0));
  expect(firstToFill(bars, lane(["a0", "b0", "b1", "c0", "c1", "e0"], []))).toEqual(
    slot("lower", "a", 0),
  );
  expect(firstToFill([], lane([], []))).toBeUndefined();
});
