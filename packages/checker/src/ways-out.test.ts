/** The laws of the ways out: none makes it worse, and what is promised comes true. */
import type { Board } from "@halflap/board/board";
import { fillDocuments } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { decodeGrip } from "@halflap/theory/grip";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { check, makeChecker } from "./check.ts";
import { isBlocked } from "./count.ts";
import { bars, type Played, type PlayedBar, smallBoard } from "./test-support/small-board.ts";
import { foundBy, taken, waysOf } from "./test-support/ways.ts";
import { differenceOf, isStanding, stands, totalOf } from "./ways/weights.ts";
import { type WayOut, waysOut } from "./ways-out.ts";

const full = "1-3-1-2-1-1";

/** What holds of every way out of a finding, measured from nothing. */
function expectHonest(board: Board, ways: readonly WayOut[], finding: ReturnType<typeof foundBy>) {
  const before = check(board);
  expect(ways.length).toBeLessThanOrEqual(6);
  expect(new Set(ways.map(({ id }) => id)).size).toBe(ways.length);
  for (const way of ways) {
    const after = check(taken(board, way));
    expect(totalOf(after)).toBeLessThan(totalOf(before));
    expect(stands(finding, after)).toBe(false);
    expect({ removes: way.removes, causes: way.causes }).toEqual(differenceOf(before, after));
    expect(way.causes.filter(({ severity }) => severity === "stop")).toEqual([]);
    expect(way.words).toMatch(/^[A-Z].* bars? \d/);
    expect(way.words).not.toMatch(/undefined|NaN/);
  }
}

describe("ways out", () => {
  const chords = "C C7 Dm7 G7 Bb7 Em7 F7 N.C.".split(" ");
  const grip = fc
    .array(fc.option(fc.nat(9), { nil: undefined }), { minLength: 6, maxLength: 6 })
    .map((frets) => frets.map((fret) => fret ?? "x").join("-"))
    .filter((text) => decodeGrip(text) !== undefined);
  const played: fc.Arbitrary<Played> = fc.tuple(fc.constantFrom(...chords), grip, grip);
  const bar: fc.Arbitrary<PlayedBar> = fc.array(played, { minLength: 1, maxLength: 2 });
  const pattern = fc.constantFrom("D.D.D.D.", "D.DU.UDU", "DUDUDUDUDUDUDUDU", "..D...D.");
  const board = fc
    .record({
      sections: fc.array(fc.array(bar, { minLength: 1, maxLength: 3 }), {
        minLength: 1,
        maxLength: 2,
      }),
      capo: fc.record({ upper: fc.nat(3), lower: fc.nat(2) }),
      strums: fc.record({ upper: pattern, lower: pattern }),
      hasBass: fc.boolean(),
    })
    .map(smallBoard);

  test("O2 O3 O4 O5 never make it worse, and bring what they promise", () => {
    fc.assert(
      fc.property(board, fc.nat(), (original, pick) => {
        const open = check(original).filter((each) => isStanding(each) && each.severity !== "note");
        const finding = open[pick % Math.max(1, open.length)];
        if (finding === undefined) return;
        expectHonest(original, waysOut(original, finding), finding);
      }),
      { numRuns: 25 },
    );
  });

  test("are the same whenever they are asked for, whatever the checker knows", () => {
    const asked = smallBoard({ sections: bars(["F7", full, full], ["C7", "x-3-2-3-1-0", full]) });
    const checker = makeChecker();
    checker(asked);
    const once = waysOut(asked, foundBy(asked, "R03"), { checker });
    expect(once.length).toBeGreaterThan(0);
    expect(waysOut(asked, foundBy(asked, "R03"), { checker })).toEqual(once);
    expect(waysOf(asked, "R03")).toEqual(once);
  });

  test("are none where nothing helps, for a note, for praise, and for what is silenced", () => {
    const unwritten = smallBoard({
      sections: bars(["C", "x-x-x-5-5-3", "x-3-2-0-1-x"]),
      more: { countIn: 0 },
    });
    expect(waysOf(unwritten, "R34")).toEqual([]);
    const note = smallBoard({ sections: bars(["C", "x-x-x-0-x-3", "x-3-2-0-x-x"]) });
    expect(foundBy(note, "R02").severity).toBe("note");
    expect(waysOf(note, "R02")).toEqual([]);
    const silenced = smallBoard({
      sections: bars(["F7", full, full]),
      silences: [{ rule: "R03", bars: [1] }],
    });
    expect(waysOf(silenced, "R03")).toEqual([]);
  });
});

describe("the draft of the demo tune", () => {
  const documents = emptyDocuments();
  fillDocuments(documents, demoDraft());
  const draft = makeReader(documents)();
  const found = check(draft);
  const blocking = found.filter((finding) => isBlocked([finding]));
  const checker = makeChecker();

  test("has a way out of every stop and every fix", () => {
    expect(blocking.length).toBeGreaterThan(10);
    const without = blocking.filter((finding) => waysOut(draft, finding, { checker }).length === 0);
    expect(without.map(({ id }) => id)).toEqual([]);
  });

  test("O2 O3 O4 O5 is made no worse by any way of its first section's findings", () => {
    const first = new Set(draft.sections[0]?.bars.map(({ id }) => id));
    const early = blocking.filter((finding) => finding.bars.every((id) => first.has(id)));
    expect(early.length).toBeGreaterThan(2);
    for (const finding of early) {
      expectHonest(draft, waysOut(draft, finding, { checker }), finding);
    }
  });

  test("O9 gets rid of all that blocks it by taking first ways one after another", () => {
    let board = draft;
    for (let step = 0; step < 80; step++) {
      const finding = checker(board).find((each) => isBlocked([each]));
      const way = finding && waysOut(board, finding, { checker })[0];
      if (way === undefined) break;
      board = taken(board, way);
    }
    expect(check(board).filter((each) => isBlocked([each]))).toEqual([]);
  }, 60_000);
});
