/** Which pattern counts: the pass's, then the bar's, the section's, the lane's. */
import type { Lane } from "@halflap/board/board";
import { barId, formEntryId, sectionId, strumId } from "@halflap/board/ids";
import type { Strum } from "@halflap/board/playing";
import { ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { barsWith, isUnused, passesOf, strumInForce } from "./in-force.ts";
import { passNotesOf } from "./playing-text.ts";

const [verse, chorus] = [sectionId("verse"), sectionId("chorus")];
const [v1, v2, c1] = [barId("v1"), barId("v2"), barId("c1")];
const ids = ["whole", "part", "one", "pass"].map(strumId);
const [whole, part, one, pass] = ids;

function strum(id: Strum["id"]): Strum {
  const steps = [{ kind: "rest" }] as const;
  return { id, name: id, step: ticks(24), feel: "board", palmMute: false, steps };
}

function lane(strumming: Partial<Lane["strumming"]>): Pick<Lane, "strums" | "strumming"> {
  const none = { lane: undefined, sections: new Map(), bars: new Map(), passes: new Map() };
  return {
    strums: new Map(ids.map((id) => [id, strum(id)])),
    strumming: { ...none, ...strumming },
  };
}

const bar = (id: typeof v1) => ({
  ...{ id, number: 1, length: ticks(192), rounds: undefined, slots: [] },
});
const entry = (id: string, section: typeof verse, times = 1) => ({
  ...{ id: formEntryId(id), section, times, singers: [] },
});
const board = {
  sections: [
    { id: verse, name: "Verse", borrows: undefined, bars: [bar(v1), bar(v2)] },
    { id: chorus, name: "Chorus", borrows: undefined, bars: [bar(c1)] },
  ],
  form: [entry("a", verse), entry("b", chorus), entry("c", verse, 2)],
};

describe("the pattern in force", () => {
  test("is the nearest, and says where it is from", () => {
    const set = lane({
      lane: whole,
      sections: new Map([[verse, part]]),
      bars: new Map([[v1, one]]),
    } as Partial<Lane["strumming"]>);
    expect(strumInForce(set, verse, v1)).toMatchObject({ strum: { id: "one" }, from: "bar" });
    expect(strumInForce(set, verse, v2)).toMatchObject({ strum: { id: "part" }, from: "section" });
    expect(strumInForce(set, chorus, c1)).toMatchObject({ strum: { id: "whole" }, from: "lane" });
    expect(strumInForce(lane({}), chorus, c1)).toBeUndefined();
  });

  test("is counted over the bars of the chart, a pass with its own counted too", () => {
    const set = lane({
      lane: whole,
      bars: new Map([[v1, one]]),
      passes: new Map([[formEntryId("c"), pass]]),
    } as Partial<Lane["strumming"]>);
    const counts = ids.map((id) => barsWith(board, set, id));
    // The second pass of the verse plays its own pattern in both bars.
    expect(counts).toEqual([2, 0, 1, 2]);
  });

  test("leaves nothing of a bar's pattern where every pass has another", () => {
    const every = new Map(["a", "c"].map((id) => [formEntryId(id), pass]));
    const set = lane({ bars: new Map([[v1, one]]), passes: every } as Partial<Lane["strumming"]>);
    expect(barsWith(board, set, strumId("one"))).toBe(0);
    expect(isUnused(set, strumId("one"))).toBe(false);
    expect(isUnused(set, strumId("part"))).toBe(true);
  });
});

test("the passes of a section are counted on through the form", () => {
  expect(passesOf(board.form, verse).map(({ first, last }) => [first, last])).toEqual([
    [1, 1],
    [2, 3],
  ]);
  expect(passesOf(board.form, chorus)).toHaveLength(1);
});

test("a pass that rests or plays otherwise is told by its number", () => {
  const set = {
    ...lane({ passes: new Map([[formEntryId("c"), pass]]) } as Partial<Lane["strumming"]>),
    restingPasses: new Set([formEntryId("a")]),
  };
  const notes = passNotesOf(set, passesOf(board.form, verse));
  expect(notes).toEqual(["1st time: lays out", "2nd and 3rd time: pass"]);
  expect(passNotesOf(set, passesOf(board.form, chorus))).toEqual([]);
});
