/**
 * What counts as a move of the hand and how long it takes. That a hand covers frets 1 to 4 without
 * leaving its place is common practice, no source.
 */
import { slotId } from "@halflap/board/ids";
import { defaultSetup, type Setup } from "@halflap/theory/tuning";
import { fret, millimetres, ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { moveSeconds, travelOf } from "./hand-travel.ts";
import type { Hold } from "./holds.ts";
import { limitsOf } from "./thresholds.ts";

const limits = limitsOf({ limits: new Map() });

function hold(
  kind: Hold["kind"],
  lowest: number,
  highest = lowest,
  more: Partial<Hold> = {},
): Hold {
  return {
    kind,
    slot: slotId("s1"),
    first: ticks(0),
    last: ticks(0),
    notes: [],
    stopped: lowest === 0 ? undefined : { lowest: fret(lowest), highest: fret(highest) },
    length: undefined,
    slides: false,
    letRing: false,
    palmMuted: false,
    isCut: false,
    ...more,
  };
}

const way = (from: Hold, to: Hold, setup: Setup = defaultSetup) =>
  travelOf(from, to, setup, limits);

describe("the way of the hand", () => {
  test("goes from the lowest fret of a grip to that of the next, either way", () => {
    expect(way(hold("grip", 3, 5), hold("grip", 13))).toBeCloseTo(239.09, 2);
    expect(way(hold("grip", 13, 15), hold("grip", 3))).toBeCloseTo(239.09, 2);
    expect(way(hold("grip", 1), hold("grip", 3))).toBeCloseTo(66.73, 2);
  });

  test("one fret between grips is a lean, two are a move, also where frets are narrow", () => {
    expect(way(hold("grip", 1), hold("grip", 2))).toBeUndefined();
    expect(way(hold("grip", 12), hold("grip", 13))).toBeUndefined();
    expect(way(hold("grip", 2), hold("grip", 2))).toBeUndefined();
    expect(way(hold("grip", 12), hold("grip", 14))).toBeCloseTo(35.35, 2);
  });

  test("what stops no string bridges the way, and a slide is the way", () => {
    expect(way(hold("line", 0), hold("grip", 13))).toBeUndefined();
    expect(way(hold("grip", 13), hold("grip", 0))).toBeUndefined();
    expect(way(hold("line", 3), hold("line", 13, 13, { slides: true }))).toBeUndefined();
    expect(way(hold("line", 3, 3, { slides: true }), hold("line", 13))).toBeDefined();
  });

  test("a note that the hand reaches from its grip is no move, nor one just beyond", () => {
    expect(way(hold("grip", 5, 7), hold("line", 8))).toBeUndefined();
    expect(way(hold("line", 9), hold("grip", 5, 7))).toBeUndefined();
    expect(way(hold("grip", 5, 7), hold("line", 10))).toBeUndefined();
    expect(way(hold("grip", 5, 7), hold("line", 12))).toBeCloseTo(161.45, 2);
  });

  test("a note below the first finger is a move from two frets on", () => {
    expect(way(hold("grip", 5, 7), hold("line", 4))).toBeUndefined();
    expect(way(hold("grip", 5, 7), hold("line", 3))).toBeCloseTo(59.45, 2);
  });

  test("notes of a line within one reach are no move, far ones are", () => {
    expect(way(hold("line", 5), hold("line", 9))).toBeUndefined();
    expect(way(hold("line", 9), hold("line", 5))).toBeUndefined();
    expect(way(hold("line", 5), hold("line", 13))).toBeDefined();
    expect(way(hold("line", 13), hold("line", 5))).toBeDefined();
  });

  test("a longer scale makes longer ways", () => {
    const long = { ...defaultSetup, scaleLength: millimetres(700) };
    expect(way(hold("grip", 1), hold("grip", 3), long)).toBeCloseTo((66.73 * 700) / 648, 1);
  });
});

test("the time of a move grows with its way and stays above its start", () => {
  expect(moveSeconds(millimetres(0), limits)).toBeCloseTo(0.08, 6);
  expect(moveSeconds(millimetres(15), limits)).toBeCloseTo(0.18, 6);
  expect(moveSeconds(millimetres(45), limits)).toBeCloseTo(0.28, 6);
});
