/** What every finding has, and what the segments measure. */
import type { Board } from "@halflap/board/board";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { check } from "./check.ts";
import type { Segment } from "./segments.ts";
import { bars, type Played, type PlayedBar, smallBoard } from "./test-support/small-board.ts";
import { preparedBoard } from "./tune.ts";

const chords = "C C7 Cmaj7 Dm7 D7 Em G7 G7b9 Bdim7 Bb7 F7/C C6 Gsus4 A5 N.C. ?".split(" ");

const grip = fc
  .array(fc.option(fc.nat(12), { nil: undefined }), { minLength: 6, maxLength: 6 })
  .filter((frets) => frets.some((fret) => fret !== undefined))
  .map((frets) => frets.map((fret) => fret ?? "x").join("-"));
const maybeGrip = fc.oneof(
  { weight: 5, arbitrary: grip },
  { weight: 1, arbitrary: fc.constant("-") },
);
const played: fc.Arbitrary<Played> = fc.tuple(fc.constantFrom(...chords), maybeGrip, maybeGrip);
const bar: fc.Arbitrary<PlayedBar> = fc.array(played, { minLength: 1, maxLength: 2 });
const sections = fc.array(fc.array(bar, { minLength: 1, maxLength: 4 }), {
  minLength: 1,
  maxLength: 3,
});
const board = fc
  .record({
    sections,
    key: fc.constantFrom("C", "F", "A minor"),
    hasBass: fc.boolean(),
    capo: fc.record({ upper: fc.nat(4), lower: fc.nat(4) }),
    form: fc.array(fc.nat(2), { maxLength: 5 }),
  })
  .map(({ form, ...rest }) =>
    smallBoard({ ...rest, form: form.map((place) => place % rest.sections.length) }),
  );

describe("check", () => {
  test("every finding has an id of its own, a place, notes, a crossed limit and a sentence", () => {
    fc.assert(
      fc.property(board, (original) => {
        const found = check(original);
        expect(new Set(found.map(({ id }) => id)).size).toBe(found.length);
        for (const { rule, bars, slots, notes, measured, threshold, words } of found) {
          expect(Math.min(bars.length, slots.length)).toBeGreaterThan(0);
          // R34 is about grips that are missing.
          expect(notes.length > 0).toBe(rule !== "R34");
          expect(measured).toBeGreaterThanOrEqual(threshold - 1e-9);
          expect(words).toMatch(/^[^a-z].*\.$/);
          expect(words).not.toMatch(/undefined|NaN|[A-G][b#](?![a-z])/);
        }
      }),
    );
  });

  test("an empty board has no findings", () => {
    expect(check(smallBoard({ sections: [] }))).toEqual([]);
  });
});

function segmentsIn(board: Board): readonly Segment[] {
  return preparedBoard(board).passages.flatMap((passage) => passage.segments);
}

describe("segments", () => {
  test("give each slot its beats and what both lanes sound, capo included", () => {
    const half: Played = ["Dm7", "x-x-0-2-1-1", "-"];
    const [first, second] = segmentsIn(
      smallBoard({ sections: [[[half, half]]], capo: { upper: 3 } }),
    );
    expect(first).toMatchObject({ beats: 2, upper: [53, 60, 63, 68], lower: undefined });
    expect(first?.share).toBeUndefined();
    expect(second?.slot.start).toBe(96);
  });

  test("measure the shared shelf where both play", () => {
    // F2 to F4 against F3 to A4: 12 of 16 semitones; means 53.83 and 61.25 apart by 7.58.
    const [segment] = segmentsIn(
      smallBoard({ sections: bars(["F7", "x-x-0-2-1-2", "1-3-1-2-1-1"]), capo: { upper: 3 } }),
    );
    expect(segment?.share).toBe(0.75);
    expect(segment?.meanGap).toBeCloseTo(7.58, 2);
  });

  test("leave out a lane that rests in the bar", () => {
    const sections = bars(["C", "x-3-2-0-1-0", "x-3-2-0-1-0"]);
    const [segment] = segmentsIn(smallBoard({ sections, layOuts: { lower: [1] } }));
    expect(segment?.lower).toBeUndefined();
    expect(segment?.upper).toHaveLength(5);
  });
});
