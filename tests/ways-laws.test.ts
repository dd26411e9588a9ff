/** The laws of the ways out: none makes it worse, and what is promised comes true. */
import type { Board, LaneId } from "@halflap/board/board";
import { type BoardCopy, fillDocuments } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { editedBoard } from "@halflap/board/edited-board";
import type { LaneEdit } from "@halflap/board/proposal";
import { makeReader } from "@halflap/board/read";
import { check, makeChecker } from "@halflap/checker/check";
import type { Finding } from "@halflap/checker/finding";
import { type WayOut, waysOut } from "@halflap/checker/ways-out";
import { decodeGrip } from "@halflap/theory/grip";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fullBoard } from "./support/full-board.ts";
import { crookedPassages } from "./support/passages/crooked-passages.ts";
import { drivingPassages } from "./support/passages/driving-passages.ts";
import { copyOfPassage } from "./support/passages/passage.ts";
import { quietPassages } from "./support/passages/quiet-passages.ts";

const weights = { stop: 100, fix: 20, look: 4, note: 1 };

function isStanding(finding: Finding): boolean {
  return finding.silenced === undefined && !finding.isPraise;
}

function isBlocking({ severity, ...finding }: Finding): boolean {
  return (severity === "stop" || severity === "fix") && finding.silenced === undefined;
}

/** R12 compares with the rest of the tune, and weighs nothing. */
function total(findings: readonly Finding[]): number {
  const counted = findings.filter((each) => isStanding(each) && each.rule !== "R12");
  return counted.reduce((sum, { severity }) => sum + weights[severity], 0);
}

function taken(board: Board, way: WayOut): Board {
  return editedBoard(board, way.lane, way.edits);
}

/** What holds of every way out of a finding, measured from nothing. */
function expectHonest(board: Board, finding: Finding, ways: readonly WayOut[]): void {
  const before = check(board);
  expect(ways.length).toBeLessThanOrEqual(6);
  expect(new Set(ways.map(({ id }) => id)).size).toBe(ways.length);
  for (const way of ways) {
    const after = check(taken(board, way));
    expect(total(after)).toBeLessThan(total(before));
    const known = new Set(before.map(({ id, severity }) => `${id} ${severity}`));
    const left = new Set(after.map(({ id, severity }) => `${id} ${severity}`));
    expect(left).not.toContain(`${finding.id} ${finding.severity}`);
    for (const { id, severity } of way.removes) {
      expect(known).toContain(`${id} ${severity}`);
      expect(left).not.toContain(`${id} ${severity}`);
    }
    for (const { id, severity } of way.causes) {
      expect(severity).not.toBe("stop");
      expect(left).toContain(`${id} ${severity}`);
    }
    expect(way.words).toMatch(/^[A-Z].* bars? \d/);
    expect(way.words).not.toMatch(/undefined|NaN/);
  }
}

function boardOf(copy: BoardCopy): Board {
  const documents = emptyDocuments();
  fillDocuments(documents, copy);
  return makeReader(documents)();
}

describe("ways out of random boards", () => {
  const plain = boardOf(fullBoard(4));
  const slots = [...plain.lanes.upper.grips.keys()];
  const grip = fc
    .array(fc.option(fc.nat(9), { nil: undefined }), { minLength: 6, maxLength: 6 })
    .map((frets) => frets.map((fret) => fret ?? "x").join("-"))
    .filter((text) => decodeGrip(text) !== undefined);
  const lane = fc
    .array(grip, { minLength: slots.length, maxLength: slots.length })
    .map((grips) =>
      slots.map((slot, index): LaneEdit => ({ kind: "grip", slot, grip: grips[index] })),
    );
  const board = fc
    .record({ upper: lane, lower: lane, hasBass: fc.boolean() })
    .map(({ upper, lower, hasBass }) => {
      const both: readonly (readonly [LaneId, readonly LaneEdit[]])[] = [
        ["upper", upper],
        ["lower", lower],
      ];
      return both.reduce<Board>((made, [id, edits]) => editedBoard(made, id, edits), {
        ...plain,
        hasBass,
      });
    });

  test("O2 O3 O4 O5 never make it worse, and bring what they promise", () => {
    let asked = 0;
    fc.assert(
      fc.property(board, fc.nat(), (original, pick) => {
        const open = check(original).filter((each) => isStanding(each) && each.severity !== "note");
        const finding = open[pick % Math.max(1, open.length)];
        if (finding === undefined) return;
        const ways = waysOut(original, finding);
        asked += ways.length;
        expectHonest(original, finding, ways);
      }),
      { numRuns: 15 },
    );
    expect(asked).toBeGreaterThan(15);
  });

  test("a board that is only tried says what a fresh check says, and leaves no trace", () => {
    fc.assert(
      fc.property(board, fc.array(board, { maxLength: 3 }), (original, others) => {
        const checker = makeChecker();
        const found = checker(original);
        for (const other of others) expect(checker(other, "try")).toEqual(check(other));
        const again = checker(original);
        expect(again).toEqual(found);
        expect(again.every((finding, index) => finding === found[index])).toBe(true);
      }),
      { numRuns: 15 },
    );
  });
});

describe("ways out of the draft of the demo tune", () => {
  const draft = boardOf(demoDraft());
  const blocking = check(draft).filter(isBlocking);
  const checker = makeChecker();

  test("O9 there is one for every stop and fix", () => {
    expect(new Set(blocking.map(({ rule }) => rule)).size).toBeGreaterThan(8);
    const without = blocking.filter((finding) => {
      return waysOut(draft, finding, { checker }).length === 0;
    });
    expect(without.map(({ id }) => id)).toEqual([]);
  });

  test("O2 O3 O4 O5 those of the first section are honest", () => {
    const first = new Set(draft.sections[0]?.bars.map(({ id }) => id));
    const early = blocking.filter((finding) => finding.bars.every((id) => first.has(id)));
    expect(early.length).toBeGreaterThan(2);
    for (const finding of early) {
      expectHonest(draft, finding, waysOut(draft, finding, { checker }));
    }
  });

  test("O9 taking the first way again and again leaves nothing that blocks", () => {
    let board = draft;
    for (let step = 0; step < 2 * blocking.length; step++) {
      const finding = checker(board).find(isBlocking);
      const way = finding && waysOut(board, finding, { checker })[0];
      if (way === undefined) break;
      board = taken(board, way);
    }
    expect(check(board).filter(isBlocking)).toEqual([]);
  });
});

describe("ways out of the passages that a musician has judged", () => {
  const passages = [...quietPassages, ...drivingPassages, ...crookedPassages];
  const asked = passages.flatMap((passage) => {
    const board = boardOf(copyOfPassage(passage));
    const found = check(board).filter(isBlocking);
    return found.map((finding) => [`${passage.name} ${finding.id}`, board, finding] as const);
  });

  test("O9 there is one for every stop and fix of theirs", () => {
    expect(asked.length).toBeGreaterThan(12);
    const without = asked.filter(([, board, finding]) => waysOut(board, finding).length === 0);
    expect(without.map(([name]) => name)).toEqual([]);
  });
});
