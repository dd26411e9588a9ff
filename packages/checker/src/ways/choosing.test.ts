/** The few ways out that are shown. */
import { slotId } from "@halflap/board/ids";
import { describe, expect, test } from "vitest";
import type { Candidate, WayKind } from "./candidate.ts";
import { inOrder, isNews, type Tried, worthTrying } from "./choosing.ts";

function candidate(grip: string, kind: WayKind = "grip", slot = "s1"): Candidate {
  const edits = [{ kind: "grip", slot: slotId(slot), grip }] as const;
  return { kind, lane: "upper", edits, words: "", loss: 0 };
}

function tried(kind: WayKind, total: number, motion: number, comfort: number, odd = 0): Tried {
  return { candidate: candidate("x-x-3-2-4-x", kind), total, odd, motion, comfort };
}

test("O6 lowest total first, then motion, then comfort; rests last", () => {
  const order = inOrder([
    tried("rest", 0, 0, 0),
    tried("grip", 5, 1, 0),
    tried("grip", 4, 9, 0),
    tried("grip", 4, 2, 3),
    tried("grip", 4, 2, 1),
  ]);
  expect(order.map(({ total, motion, comfort }) => [total, motion, comfort])).toEqual([
    [4, 2, 1],
    [4, 2, 3],
    [4, 9, 0],
    [5, 1, 0],
    [0, 0, 0],
  ]);
});

test("O6 a grip that colours weighs as a total that is a look higher", () => {
  const order = inOrder([
    tried("grip", 4, 0, 0, 4),
    tried("grip", 6, 9, 9),
    tried("grip", 8, 0, 9),
  ]);
  expect(order.map(({ total, odd }) => [total, odd])).toEqual([
    [6, 0],
    [4, 4],
    [8, 0],
  ]);
});

describe("O7 truly different", () => {
  const chosen = [candidate("x-x-3-2-4-x")];

  test("a grip with one string more or less is no news", () => {
    expect(isNews(candidate("x-x-3-2-4-1"), chosen)).toBe(false);
    expect(isNews(candidate("x-x-3-2-x-x", "strings"), chosen)).toBe(false);
    expect(isNews(candidate("x-x-3-2-3-x"), chosen)).toBe(true);
    expect(isNews(candidate("x-x-3-2-4-1", "grip", "s2"), chosen)).toBe(true);
  });

  test("counting the capo is told beside a grip like it", () => {
    expect(isNews(candidate("x-x-3-2-4-x", "capo"), chosen)).toBe(true);
  });

  test("one kind does not fill the list", () => {
    const two = [candidate("x-x-3-2-4-x"), candidate("x-x-x-8-10-8")];
    expect(isNews(candidate("x-x-10-11-10-x"), two)).toBe(false);
    expect(isNews(candidate("x-x-10-11-10-x", "octave"), two)).toBe(true);
  });
});

test("of each kind three times as many as are shown are tried, but every cut of a fill", () => {
  const many = (kind: WayKind) => Array.from({ length: 12 }, () => candidate("x-x-3-2-4-x", kind));
  const tried = worthTrying([...many("grip"), ...many("octave"), ...many("fill cut")]);
  const count = (kind: WayKind) => tried.filter((each) => each.kind === kind).length;
  expect([count("grip"), count("octave"), count("fill cut")]).toEqual([6, 3, 12]);
});
