/** Changes are shown as before and after, and known when they are idle or their place is gone. */
import type { Board } from "@halflap/board/board";
import { fillDocuments } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { editedBoard } from "@halflap/board/edited-board";
import { barId, slotId, strumId } from "@halflap/board/ids";
import type { Strum } from "@halflap/board/playing";
import type { LaneEdit } from "@halflap/board/proposal";
import { makeReader } from "@halflap/board/read";
import { printGrip } from "@halflap/theory/grip";
import { fret, ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { strumInForce } from "../playing/in-force.ts";
import { changesOf, isIdle, sameEdits } from "./changes.ts";
import { standingOf } from "./standing.ts";

function demo(): Board {
  const documents = emptyDocuments();
  fillDocuments(documents, demoDraft());
  return makeReader(documents)();
}

const board = demo();
const applied = (edits: readonly LaneEdit[]) => editedBoard(board, "lower", edits);
const [intro] = board.sections;
const bar = intro?.bars[0];
const slot = bar?.slots[0]?.id ?? slotId("none");
const here = bar?.id ?? barId("none");
const once: Strum = {
  ...{ id: strumId("once"), name: "Once", step: ticks(24), feel: "board", palmMute: false },
  steps: [{ kind: "stroke", way: "down", weight: "plain", push: false }],
};
const grip = (text: string | undefined): LaneEdit => ({ kind: "grip", slot, grip: text });
const goneGrip: LaneEdit = { kind: "grip", slot: slotId("nowhere"), grip: "x-x-3-2-4-x" };

describe("changes to a lane", () => {
  test("a grip is shown as it is and as it would be", () => {
    const [change] = changesOf(board, "lower", [grip("x-x-3-2-4-x")]);
    if (change?.kind !== "grip" || !change.before || !change.after) throw new Error("no grip");
    expect([change.where, printGrip(change.before), printGrip(change.after)]).toEqual([
      "F7, bar 1",
      "1-3-1-2-1-1",
      "x-x-3-2-4-x",
    ]);
  });

  test("a pattern made to be set somewhere is one change", () => {
    const edits: readonly LaneEdit[] = [
      { kind: "strum", strum: once },
      { kind: "strum-at", place: { kind: "bar", bar: here }, strum: once.id },
    ];
    expect(changesOf(board, "lower", edits)).toEqual([
      expect.objectContaining({ kind: "strum", where: "bar 1", after: once }),
    ]);
  });

  test("a capo and a locked slot are said in words", () => {
    const said = (edit: LaneEdit) =>
      changesOf(board, "lower", [edit]).map((change) => ("words" in change ? change.words : ""));
    expect(said({ kind: "capo", capo: fret(3) })).toEqual(["Capo on fret 3"]);
    expect(said({ kind: "capo", capo: fret(0) })).toEqual(["Capo off"]);
    expect(said({ kind: "lock", slot, on: true })).toEqual(["Keep the grip of F7, bar 1"]);
    expect(said({ kind: "lock", slot, on: false })).toEqual(["Free the grip of F7, bar 1"]);
    const nowhere: LaneEdit = { kind: "lock", slot: slotId("nowhere"), on: true };
    expect(changesOf(board, "lower", [nowhere])).toEqual([{ kind: "gone" }]);
  });

  test("what would be as it is, is idle", () => {
    const idle = (edit: LaneEdit) => changesOf(board, "lower", [edit]).every(isIdle);
    expect(idle({ kind: "capo", capo: board.lanes.lower.setup.capo })).toBe(true);
    expect(idle({ kind: "capo", capo: fret(board.lanes.lower.setup.capo + 1) })).toBe(false);
    expect(idle({ kind: "lock", slot, on: false })).toBe(true);
    expect(idle({ kind: "lock", slot, on: true })).toBe(false);
    expect(idle(grip("1-3-1-2-1-1"))).toBe(true);
    expect(idle(grip("x-x-3-2-4-x"))).toBe(false);
    expect(idle({ kind: "lay-out", bar: here, rest: false })).toBe(true);
    expect(idle({ kind: "lay-out", bar: here, rest: true })).toBe(false);
  });

  test("a pattern of the lane that is written anew is shown as well", () => {
    const [own] = board.lanes.lower.strums.values();
    if (own === undefined) throw new Error("no pattern");
    const edits: readonly LaneEdit[] = [
      { kind: "strum", strum: { ...once, id: own.id } },
      { kind: "strum-at", place: { kind: "bar", bar: here }, strum: own.id },
    ];
    expect(changesOf(board, "lower", edits)).toEqual([
      expect.objectContaining({ kind: "strum", before: own }),
      expect.objectContaining({ kind: "strum", where: "bar 1" }),
    ]);
  });

  test("the same strokes in another feel, or with the palm on the strings, are a change", () => {
    const own = intro && strumInForce(board.lanes.lower, intro.id, here)?.strum;
    if (!own) throw new Error("no pattern in bar 1");
    const isIdleWith = (what: Partial<Strum>) => {
      const strum: Strum = { ...own, id: strumId("anew"), name: "Anew", ...what };
      const edits: readonly LaneEdit[] = [
        { kind: "strum", strum },
        { kind: "strum-at", place: { kind: "bar", bar: here }, strum: strum.id },
      ];
      return changesOf(board, "lower", edits).every(isIdle);
    };
    expect(isIdleWith({})).toBe(true);
    expect(isIdleWith({ feel: "swing" })).toBe(false);
    expect(isIdleWith({ palmMute: true })).toBe(false);
  });

  test("what a bar strums once its own pattern goes is its section's", () => {
    if (intro === undefined) throw new Error("no section");
    const place = { kind: "bar", bar: here } as const;
    const own = applied([
      { kind: "strum", strum: once },
      { kind: "strum-at", place, strum: once.id },
    ]);
    const rolled: Strum = { ...once, id: strumId("rolled"), feel: "swing" };
    const edits: readonly LaneEdit[] = [
      { kind: "strum", strum: rolled },
      { kind: "strum-at", place: { kind: "section", section: intro.id }, strum: rolled.id },
      { kind: "strum-at", place, strum: undefined },
    ];
    expect(changesOf(own, "lower", edits)).toEqual([
      expect.objectContaining({ where: "Intro", after: rolled }),
      { kind: "strum", where: "bar 1", before: once, after: rolled },
    ]);
  });

  test("the same edits are known again, whatever the order of their fields", () => {
    const turned = { grip: "x-x-3-2-4-x", slot, kind: "grip" } as const;
    expect(sameEdits([grip("x-x-3-2-4-x")], [turned])).toBe(true);
    expect(sameEdits([grip(undefined)], [{ kind: "grip", slot, grip: undefined }])).toBe(true);
    expect(sameEdits([grip("x-x-3-2-4-x")], [grip("1-3-1-2-1-1")])).toBe(false);
    expect(sameEdits([], [turned])).toBe(false);
  });
});

test("a proposal is open, partly gone, gone, or done already", () => {
  const standing = (...edits: LaneEdit[]) => standingOf(board, { lane: "lower", edits });
  expect(standing(grip("x-x-3-2-4-x"))).toBe("open");
  expect(standing(grip("x-x-3-2-4-x"), goneGrip)).toBe("partly-gone");
  expect(standing(goneGrip)).toBe("gone");
  expect(standing(grip("1-3-1-2-1-1"))).toBe("already");
  const lost = { kind: "bar", bar: here } as const;
  expect(standing({ kind: "strum-at", place: lost, strum: strumId("lost") })).toBe("gone");
});
