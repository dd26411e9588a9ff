/** Laws of the rules about rhythm, loudness and form, over many boards. */
import type { Board, Lane, LaneId } from "@halflap/board/board";
import { dynamics } from "@halflap/board/playing";
import fc from "fast-check";
import { expect, test } from "vitest";
import { check, makeChecker } from "./check.ts";
import type { RuleId } from "./finding.ts";
import { bars, type Played, smallBoard } from "./test-support/small-board.ts";
import type { SmallFill } from "./test-support/small-playing.ts";

const ours: readonly RuleId[] = ["R18", "R19", "R20", "R21", "R22", "R33", "R34", "R36"];
const patterns = [
  ..."D.DU.UDU D...D... ..D..UD. .U.U.U.U D....... dUdUdUdU DDDDDDDD".split(" "),
  ..."DUDUDUDUDUDUDUDU DU...........DU. DU.DU.DU.DU.".split(" "),
];
const chord: Played = ["C", "x-x-x-5-5-3", "x-3-2-0-1-x"];
const half: Played = ["C", "x-x-x-5-5-3", "-"];

const strums = fc.dictionary(fc.constantFrom("1", "2", "3", "4"), fc.constantFrom(...patterns));
const loudness = fc.dictionary(fc.constantFrom("1", "2", "3"), fc.constantFrom(...dynamics));
const notes: SmallFill["notes"] = [[0, "1:8"]];
const fill = fc.record({
  bar: fc.integer({ min: 1, max: 4 }),
  beat: fc.integer({ min: 1, max: 4 }),
  beats: fc.integer({ min: 1, max: 3 }),
  notes: fc.constantFrom(notes, []),
});
const forBoth = <T>(each: fc.Arbitrary<T>) => fc.record({ upper: each, lower: each });

const board = fc
  .record({
    sections: fc
      .array(fc.constantFrom(chord, half), { minLength: 4, maxLength: 4 })
      .map((played) => bars(...played)),
    tempo: fc.integer({ min: 40, max: 260 }),
    feel: fc.constantFrom("straight" as const, "swing" as const),
    strums: forBoth(strums),
    dynamics: forBoth(loudness),
    fills: forBoth(fc.array(fill, { maxLength: 1 })),
    phrases: fc.constantFrom([], [{ bar: 2, beat: 1, beats: 6 }]),
    countIn: fc.nat(1),
  })
  .map(({ countIn, ...rest }) => smallBoard({ ...rest, more: { countIn } }));

/** Where each rule speaks, how gravely, about which lanes, and what it measured. */
function said(of: Board, name: (lane: LaneId) => LaneId): readonly string[] {
  return check(of)
    .filter(({ rule }) => ours.includes(rule))
    .map(({ rule, severity, isPraise, lanes, spans, measured, threshold }) =>
      JSON.stringify({
        ...{ rule, severity, isPraise, lanes: lanes.map(name).sort(), spans },
        ...{ measured: measured.toFixed(9), threshold },
      }),
    )
    .sort();
}

const same = (lane: LaneId): LaneId => lane;
const other = (lane: LaneId): LaneId => (lane === "upper" ? "lower" : "upper");

test("lanes swapped give the same findings with the lanes swapped", () => {
  fc.assert(
    fc.property(board, (original) => {
      const { upper, lower } = original.lanes;
      const lanes: Board["lanes"] = {
        upper: { ...lower, id: "upper" },
        lower: { ...upper, id: "lower" },
      };
      expect(said({ ...original, lanes }, other)).toEqual(said(original, same));
    }),
  );
});

test("a checker that remembers says what a new one says, edit after edit", () => {
  fc.assert(
    fc.property(fc.array(board, { minLength: 2, maxLength: 4 }), (boards) => {
      const remembering = makeChecker();
      let lane: Lane | undefined;
      for (const next of boards) {
        const mixed = { ...next, lanes: { ...next.lanes, upper: lane ?? next.lanes.upper } };
        expect(remembering(mixed)).toEqual(check(mixed));
        expect(remembering({ ...mixed, tempo: 90 })).toEqual(check({ ...mixed, tempo: 90 }));
        lane = next.lanes.upper;
      }
    }),
    { numRuns: 30 },
  );
});

test("every finding has an id of its own, a place, finite measures and a sentence", () => {
  fc.assert(
    fc.property(board, (original) => {
      const found = check(original).filter(({ rule }) => ours.includes(rule));
      expect(new Set(found.map(({ id }) => id)).size).toBe(found.length);
      for (const { rule, severity, slots, spans, measured, threshold, words } of found) {
        expect(slots.length).toBeGreaterThan(0);
        expect(spans.every(({ start, end }) => start < end)).toBe(true);
        expect(Number.isFinite(measured) && Number.isFinite(threshold)).toBe(true);
        expect(words).toMatch(/^[A-Z].*\.$/);
        expect(words).not.toMatch(/undefined|NaN|Infinity/);
        if (rule === "R19" && severity === "look") expect(measured).toBeLessThan(threshold);
      }
    }),
  );
});
