/**
 * Passages of our own in many styles, each with all that a musician would say of it: what the check
 * finds has to be that and nothing else. That these are the right things to say is common practice,
 * no source.
 */
import type { Board } from "@halflap/board/board";
import { check } from "@halflap/checker/check";
import type { Finding } from "@halflap/checker/finding";
import { describe, expect, test } from "vitest";
import { boardOfCopy } from "../support/copies.ts";
import { crookedPassages } from "../support/passages/crooked-passages.ts";
import { drivingPassages } from "../support/passages/driving-passages.ts";
import { barsOf, copyOfPassage } from "../support/passages/passage.ts";
import { quietPassages } from "../support/passages/quiet-passages.ts";

const passages = [...quietPassages, ...drivingPassages, ...crookedPassages];

/** "R01 fix both 1-4": what a finding says and where; lanes by name where it is one. */
function told(board: Board, { rule, severity, isPraise, lanes, bars }: Finding): string {
  const numbers = board.sections
    .flatMap((section) => section.bars)
    .flatMap(({ id }, index) => (bars.includes(id) ? [index + 1] : []));
  const [first, last] = [numbers[0], numbers.at(-1)];
  const who = lanes.length > 1 ? "both" : lanes[0];
  const where = first === last ? first : `${first}-${last}`;
  return `${rule} ${isPraise ? "praise" : severity} ${who} ${where}`;
}

/** All but plain notes, which are good to know and ask for nothing. */
function asked({ severity, isPraise }: Finding): boolean {
  return severity !== "note" || isPraise;
}

describe("a musician would say of", () => {
  test.each(passages.map((passage) => [passage.name, passage] as const))("%s", (_, passage) => {
    const board = boardOfCopy(copyOfPassage(passage));
    const found = check(board).filter(asked);
    const expected = passage.expected.map(([finding]) => finding);
    expect(found.map((finding) => told(board, finding)).sort()).toEqual([...expected].sort());
  });
});

test("there are passages enough, four to twelve bars long, with a reason for each finding", () => {
  expect(passages.length).toBeGreaterThanOrEqual(12);
  expect(new Set(passages.map(({ name }) => name)).size).toBe(passages.length);
  for (const passage of passages) {
    const count = barsOf(copyOfPassage(passage)).length;
    expect(count, passage.name).toBeGreaterThanOrEqual(4);
    expect(count, passage.name).toBeLessThanOrEqual(12);
    expect(passage.expected.every(([, why]) => why.length > 10)).toBe(true);
  }
});

test("they speak of rules of every kind, and leave no chord of their charts unread", () => {
  const rules = new Set(passages.flatMap(({ expected }) => expected.map(([f]) => f.slice(0, 3))));
  expect(rules.size).toBeGreaterThanOrEqual(18);
  for (const passage of passages) {
    const board = boardOfCopy(copyOfPassage(passage));
    const slots = board.sections.flatMap(({ bars }) => bars).flatMap(({ slots }) => slots);
    expect(slots.every(({ chord }) => chord?.kind === "chord")).toBe(true);
  }
});
