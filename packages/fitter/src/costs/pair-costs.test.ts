/** What pairs of grips are charged, rule by rule; the tests of the rules name their sources. */
import type { LaneId } from "@halflap/board/board";
import type { RuleId } from "@halflap/checker/finding";
import { type SmallBoard, smallBoard } from "@halflap/checker/test-support/small-board";
import { grip } from "@halflap/theory/test-support/as-read";
import { describe, expect, test } from "vitest";
import { heldGrips } from "../grips/held-grip.ts";
import { stepsPerSemitone } from "../solver/lattice.ts";
import { playedBoard } from "../tune/played.ts";
import { slotKinds } from "../tune/slot-kinds.ts";
import { weightsFor } from "./leanings.ts";
import { costsByRule, pairCauses, pairTable } from "./pair-costs.ts";
import type { CauseName } from "./weights.ts";

const weights = weightsFor("plain");

/** The first slot of a board as it is asked about. */
function firstSlot(small: SmallBoard, strummed = "D.D.D.D.") {
  const board = smallBoard({ strums: { upper: strummed, lower: strummed }, ...small });
  const played = playedBoard(board);
  const [kinds = []] = slotKinds(board, played).values();
  const [slot] = board.lanes.upper.grips.keys();
  const list = (lane: LaneId) => {
    const grip = slot && board.lanes[lane].grips.get(slot);
    return grip && heldGrips([grip], played.frame.setups[lane]);
  };
  const taste = { frame: played.frame, weights, high: "upper" } as const;
  return { kinds, lists: { upper: list("upper"), lower: list("lower") }, taste };
}

/** What a rule is charged for in the first bar, in semitones. */
function charged(rule: RuleId, small: SmallBoard): number {
  const { kinds, lists, taste } = firstSlot(small);
  return (costsByRule(kinds, lists, taste).get(rule) ?? 0) / stepsPerSemitone;
}

/** Chord, upper grip, lower grip, and what it costs. */
type Row = readonly [rule: RuleId, chord: string, upper: string, lower: string, cost: number];

const rows: readonly Row[] = [
  ["R01", "C", "x-x-x-5-5-x", "x-x-5-5-5-x", 20],
  ["R01", "C", "x-x-x-x-8-8", "x-3-2-0-x-x", 0],
  ["R02", "C", "x-x-x-5-5-x", "x-x-10-x-5-x", 20],
  ["R02", "C", "x-x-x-5-5-3", "x-3-2-0-x-x", 0],
  ["R03", "C", "x-x-2-0-1-x", "x-x-2-0-1-x", 20],
  ["R04", "C7", "x-x-x-3-x-x", "x-x-8-x-x-x", 0],
  ["R06", "G7", "x-x-x-2-x-x", "x-x-7-x-x-x", 4],
  ["R07", "C7", "x-x-x-5-8-x", "x-3-5-x-x-x", 20],
  ["R08", "G7", "x-x-x-x-6-3", "3-2-x-x-x-x", 4],
  ["R09", "G7", "x-x-x-x-6-3", "x-2-0-x-x-x", 4],
  ["R10", "C", "x-x-x-x-1-x", "x-x-9-x-x-x", 20],
  ["R10", "C", "x-x-x-x-1-0", "x-x-3-2-x-x", 0],
  ["R11", "C", "x-x-x-x-x-1", "x-x-2-x-x-x", 20],
  ["R13", "C", "x-x-x-x-2-2", "x-3-2-0-x-x", 4],
  ["R16", "C", "x-3-2-x-x-x", "x-x-x-x-5-3", 4],
  ["R30", "C", "x-x-1-x-x-8", "x-3-2-0-x-x", 100],
];

describe("F23, F24 a pair of grips is charged what the rule says of it", () => {
  test.each(rows)("%s for %s held %s over %s costs %d", (...row) => {
    const [rule, chord, upper, lower, cost] = row;
    const bar = [[chord, upper, lower] as const];
    // The chord on which the tune ends may be as full as the band likes.
    expect(charged(rule, { sections: [[bar, bar]] })).toBe(cost);
  });

  test("R05 where both could step up at once costs a fix, silenced nothing", () => {
    const bars = (grips: readonly [string, string]) => [
      [[["G7", ...grips] as const], [["C", "x-x-x-x-5-3", "x-3-2-0-x-x"] as const]],
    ];
    const both = bars(["x-x-x-4-3-x", "x-2-3-x-x-x"]);
    expect(charged("R05", { sections: both })).toBe(20);
    expect(charged("R05", { sections: both, silences: [{ rule: "R05", bars: [1] }] })).toBe(0);
    expect(charged("R05", { sections: bars(["x-x-x-7-6-x", "x-2-3-x-x-x"]) })).toBe(0);
  });

  test("a bar that is meant to be in unison is charged for nothing that is doubled", () => {
    const same = { sections: [[[["C", "x-x-2-0-1-x", "x-x-2-0-1-x"] as const]]] };
    for (const rule of ["R01", "R02", "R03", "R04"] as const) {
      expect(charged(rule, { ...same, aims: { 1: ["unison"] } })).toBe(0);
    }
  });
});

/** What the first bar is charged for a cause, in semitones. */
function chargedFor(asked: CauseName, small: SmallBoard): number {
  const { kinds, lists, taste } = firstSlot(small);
  const parts = pairCauses(kinds, lists, taste).filter(({ cause }) => cause === asked);
  return parts.reduce((sum, { steps }) => sum + steps, 0) / stepsPerSemitone;
}

describe("F26 a slash bass lies lowest where nobody plays bass: common practice, no source", () => {
  const missed = (small: SmallBoard) => chargedFor("missing note", small);
  const bar = (lower: string, chord = "Am/G", upper = "x-x-x-5-5-5") => ({
    sections: [[[[chord, upper, lower] as const]]],
    hasBass: false,
  });

  test("another note lowest in both parts costs a look's worth", () => {
    expect(missed(bar("x-x-2-2-x-x"))).toBe(4);
    expect(missed(bar("x-x-5-5-x-x"))).toBe(0);
    // The lower of the two grips may be either's.
    expect(missed(bar("x-x-x-5-5-5", "Am/G", "x-x-5-5-x-x"))).toBe(0);
  });

  test("beside a bass player, and without a slash, any note may be lowest", () => {
    expect(missed({ ...bar("x-x-2-2-x-x"), hasBass: true })).toBe(0);
    expect(missed(bar("x-x-2-2-x-x", "Am"))).toBe(0);
  });

  test("F25 a part alone is charged where the other rests by design", () => {
    const alone = (upper: string, lower: string, layOuts = {}) =>
      missed({ ...bar(lower, "Am/G", upper), layOuts });
    expect(alone("x-x-2-2-1-x", "x-x-5-5-x-x", { lower: [1] })).toBe(4);
    expect(alone("x-x-5-5-5-x", "x-x-2-2-x-x", { lower: [1] })).toBe(0);
    expect(alone("x-x-2-2-1-x", "-")).toBe(0);
  });
});

describe("F26 a triad has a 13 only with its fifth: G B E is Em, from the tones of both", () => {
  const named = 4;
  const masked = named + 8;
  test.each([
    ["G", "x-x-x-x-8-7", "x-x-x-0-0-0", masked],
    // The fifth is in the other part, in the same grip, with the bass player.
    ["G", "x-x-x-x-8-10", "x-x-x-0-0-0", named],
    ["G", "x-x-x-x-8-7", "x-x-0-0-0-0", named],
    ["G/D", "x-x-x-x-8-7", "x-x-x-0-0-0", named],
    // A suspended fourth with its 13 is the triad of the fourth.
    ["Gsus4", "x-x-x-x-8-8", "x-x-x-0-1-0", masked],
    // The symbol asks for it, or has a seventh beside it.
    ["G6", "x-x-x-x-8-7", "x-x-x-0-0-0", 0],
    ["G/E", "x-x-x-x-8-7", "x-x-x-0-0-0", 0],
    ["G7", "x-x-x-x-6-7", "x-x-x-0-0-0", named],
    ["Em", "x-x-x-x-8-7", "x-x-x-0-0-0", 0],
  ])("%s held %s over %s is charged %d for colours", (chord, upper, lower, cost) => {
    expect(chargedFor("colour", { sections: [[[[chord, upper, lower]]]] })).toBe(cost);
  });

  test("F25 in a part alone too", () => {
    const alone = { sections: [[[["G", "x-x-x-0-0-0", "-"] as const]]] };
    expect(chargedFor("colour", alone)).toBe(masked);
  });
});

describe("F20 times", () => {
  const once = { sections: [[[["C7", "x-x-x-5-8-x", "x-3-5-x-x-x"] as const]]] };

  test("a slot that the form plays three times costs three times as much", () => {
    expect(charged("R07", { ...once, form: [0, 0, 0] })).toBe(60);
  });

  test("a section outside the form costs as if it were played once", () => {
    const out = { sections: [...once.sections, ...once.sections], form: [1] };
    expect(charged("R07", out)).toBe(20);
  });
});

describe("F31 parts", () => {
  test("the causes of a pair add up to its entry in the table", () => {
    const bar = [["G7", "x-x-x-7-6-x", "3-2-0-0-0-1"] as const];
    const { kinds, lists, taste } = firstSlot({ sections: [[bar, bar]] });
    const parts = pairCauses(kinds, lists, taste).reduce((sum, { steps }) => sum + steps, 0);
    expect(parts).toBeGreaterThan(0);
    expect([...pairTable(kinds, lists, taste)]).toEqual([parts]);
  });

  test("each entry of a table is what its two grips cost by themselves, alike or not", () => {
    const bar = [["C", "x-x-x-5-5-x", "x-x-10-x-5-x"] as const];
    const { kinds, lists, taste } = firstSlot({ sections: [[bar, bar]] });
    // Some of them sound the same pitches in another place.
    const grips = ["x-x-x-5-5-x", "x-x-10-9-x-x", "x-x-10-x-5-x", "x-x-5-5-5-x"].map(grip);
    const many = {
      upper: lists.upper && heldGrips(grips, lists.upper.setup),
      lower: lists.lower && heldGrips([...grips].reverse(), lists.lower.setup),
    };
    const single = (list: typeof many.upper, at: number) => {
      const held = list?.grips[at];
      return list && held && heldGrips([held.grip], list.setup);
    };
    const expected = grips.flatMap((_, row) =>
      grips.map((_, column) => {
        const alone = { upper: single(many.upper, row), lower: single(many.lower, column) };
        return pairCauses(kinds, alone, taste).reduce((sum, { steps }) => sum + steps, 0);
      }),
    );
    expect(new Set(expected).size).toBeGreaterThan(2);
    expect([...pairTable(kinds, many, taste)]).toEqual(expected);
  });

  test("F25 a lane alone is charged for itself, the resting one for nothing", () => {
    const bar = [["G7", "x-x-x-7-6-x", "3-2-0-0-0-1"] as const];
    const alone = firstSlot({ sections: [[bar]], layOuts: { lower: [1] } });
    const causes = pairCauses(alone.kinds, alone.lists, alone.taste);
    const [kind] = alone.kinds;
    expect(kind?.kind.sounding).toBe("upper");
    const muddy = causes.filter(({ cause, steps }) => cause === "low and muddy" && steps > 0);
    expect(muddy).toEqual([]);
  });
});
