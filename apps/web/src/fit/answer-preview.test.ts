/** What of an answer is laid on the board. */
import { printGrip } from "@halflap/theory/grip";
import { expect, test } from "vitest";
import { changeCount, previewOf } from "./answer-preview.ts";
import { anAnswer, aPart, demoBoard } from "./test-support/answers.ts";

const board = demoBoard();
const held = [...board.lanes.lower.grips].map(([slot, grip]) => [slot, printGrip(grip)] as const);
const [one, two] = held;
if (one === undefined || two === undefined) throw new Error("the demo has grips");

test("only slots that would hold another grip are in it", () => {
  const part = aPart("lower", new Map([[one[0], "x-x-3-2-4-x"], two]));
  const preview = previewOf(anAnswer({ parts: [part] }), board);
  expect([...(preview.lower?.grips.keys() ?? [])]).toEqual([one[0]]);
  expect(preview.upper).toBeUndefined();
  expect(changeCount(preview)).toBe(1);
});

test("the board as it is changes nothing", () => {
  const preview = previewOf(anAnswer({ parts: [aPart("lower", new Map(held))] }), board);
  expect(changeCount(preview)).toBe(0);
});

test("another capo moves every grip, also those that are fingered alike", () => {
  const part = { ...aPart("lower", new Map(held)), capo: 5 };
  const preview = previewOf(anAnswer({ parts: [part] }), board);
  expect(changeCount(preview)).toBe(held.length);
  expect(preview.lower?.setup.capo).toBe(5);
  expect(board.lanes.lower.setup.capo).not.toBe(5);
});
