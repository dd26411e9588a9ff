/** Findings are read from the first bar to the last, the gravest first. */
import type { Bar, BarId, Section, SectionId } from "@halflap/board/board";
import type { Finding, Severity } from "@halflap/checker/finding";
import { ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { countBySign, gravestOf, groupByBar, inOrder, locksIn, standing } from "./reading-order.ts";

const bar = (number: number): Bar => ({
  id: `b${number}` as BarId,
  number,
  length: ticks(192),
  rounds: undefined,
  slots: [],
});
const sections: readonly Section[] = [
  { id: "s1" as SectionId, name: "Intro", borrows: undefined, bars: [bar(1), bar(2)] },
  { id: "s2" as SectionId, name: "Verse", borrows: undefined, bars: [bar(3), bar(4)] },
];

function finding(id: string, severity: Severity, bars: readonly number[]): Finding {
  return {
    id,
    rule: "R02",
    severity,
    isPraise: id === "praise",
    lanes: ["upper"],
    bars: bars.map((number) => `b${number}` as BarId),
    slots: [],
    spans: [],
    notes: [],
    measured: 1,
    threshold: 1,
    unit: "notes",
    words: id,
    silenced: id === "quiet" ? "the hook" : undefined,
  };
}

const all = [
  finding("late", "stop", [4]),
  finding("small", "note", [1]),
  finding("grave", "fix", [1]),
  finding("long", "fix", [1, 2, 3]),
  finding("quiet", "look", [2]),
];

describe("reading order", () => {
  test("groups by the bar a finding begins in, the gravest first, notes apart", () => {
    const groups = groupByBar(standing(all), sections);
    expect(groups.map((group) => [group.section, group.number])).toEqual([
      ["Intro", 1],
      ["Verse", 4],
    ]);
    expect(groups[0]?.plain.map((each) => each.finding.id)).toEqual(["long", "grave"]);
    expect(groups[0]?.notes.map((each) => each.finding.id)).toEqual(["small"]);
    expect(inOrder(groups).map((each) => each.id)).toEqual(["long", "grave", "small", "late"]);
  });

  test("says how far a finding reaches beyond its first bar", () => {
    const [group] = groupByBar(standing(all), sections);
    expect(group?.plain.map((each) => each.until)).toEqual([3, undefined]);
  });

  test("a bar that reads as before is the same object", () => {
    const before = groupByBar(all, sections);
    const after = groupByBar([...all, finding("new", "look", [2])], sections, before);
    expect(after.map((group) => before.includes(group))).toEqual([true, false, true]);
    expect(groupByBar(all, sections, before).every((group) => before.includes(group))).toBe(true);
  });

  test("leaves out a finding whose bars are gone", () => {
    expect(groupByBar([finding("gone", "stop", [9])], sections)).toEqual([]);
  });

  test("begins with the first of the gravest kind", () => {
    expect(gravestOf(inOrder(groupByBar(all, sections)))?.id).toBe("late");
    expect(gravestOf([finding("b", "look", [1]), finding("a", "look", [2])])?.id).toBe("b");
    expect(gravestOf([])).toBeUndefined();
  });

  test("counts by sign, silenced ones apart", () => {
    expect(countBySign(standing(all))).toEqual({ stop: 1, fix: 2, look: 0, note: 1, lock: 0 });
  });

  test("praise is read apart and never counted as trouble", () => {
    const groups = groupByBar([...all, finding("praise", "note", [4])], sections);
    expect(locksIn(groups).map((each) => each.id)).toEqual(["praise"]);
    expect(inOrder(groups).map((each) => each.id)).not.toContain("praise");
    expect(countBySign(locksIn(groups))).toEqual({ stop: 0, fix: 0, look: 0, note: 0, lock: 1 });
  });
});
