/** Who gets which change when an answer is taken. */
import { barId } from "@halflap/board/ids";
import { proposalEditsMax, proposalsMax } from "@halflap/board/limits";
import { expect, test } from "vitest";
import { takingOf, whyNotOffered } from "./taking.ts";
import { aPart, demoBoard } from "./test-support/answers.ts";

const board = demoBoard();
const [slot] = board.lanes.upper.grips.keys();
if (slot === undefined) throw new Error("the demo has grips");
const upper = aPart("upper", new Map([[slot, "x-x-3-2-4-x"]]));
const lower = aPart("lower", new Map([[slot, "x-3-2-4-x-x"]]));
const both = { parts: [upper, lower] };
const along = [
  { lane: "upper", edits: [{ kind: "mark", bar: barId("b"), text: "softly" }] },
] as const;

test("my lane's edits are mine, the other's are offered", () => {
  const taking = takingOf(both, [], "lower");
  expect(taking.own).toEqual({ lane: "lower", edits: lower.edits });
  expect(taking.offers).toEqual([{ lane: "upper", edits: upper.edits }]);
});

test("without a lane of mine all is offered, and what changes nothing is left out", () => {
  expect(takingOf(both, [], undefined).offers).toHaveLength(2);
  expect(takingOf({ parts: [{ ...upper, edits: [] }] }, [], undefined).offers).toEqual([]);
});

test("what goes along joins the part of its lane, in one step", () => {
  const taking = takingOf({ parts: [lower] }, along, "upper");
  expect(taking.own?.edits).toHaveLength(1);
  expect(takingOf(both, along, "upper").own?.edits).toHaveLength(2);
});

test("too much for an offer, or one too many, is said; my own part has no limit", () => {
  const [edit] = upper.edits;
  if (edit === undefined) throw new Error("a part has edits");
  const long = { ...upper, edits: Array.from({ length: proposalEditsMax + 1 }, () => edit) };
  expect(whyNotOffered(takingOf({ parts: [long] }, [], "upper"), 0)).toBeUndefined();
  expect(whyNotOffered(takingOf({ parts: [long] }, [], "lower"), 0)).toContain("1024");
  expect(whyNotOffered(takingOf({ parts: [upper] }, [], "lower"), proposalsMax)).toContain("64");
  expect(whyNotOffered(takingOf({ parts: [upper] }, [], "lower"), 0)).toBeUndefined();
});
