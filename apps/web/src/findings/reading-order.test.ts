/** Findings are read from the first bar to the last, the gravest first. */
import type { Bar, BarId, Section, SectionId } from "@halflap/board/board";
import type { Finding, Severity } from "@halflap/checker/finding";
import { ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { countBySeverity, groupByBar, standing } from "./reading-order.ts";

const bar = (number: number): Bar => ({
  id: `b${number}` as BarId,
  number,
  length: ticks(192),
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
    lanes: ["upper"],
    bars: bars.map((number) => `b${number}` as BarId),
    slots: [],
    notes: [],
    measured: 1,
    threshold: 1,
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
  test("groups by the bars spanned, and names section and bars", () => {
    const groups = groupByBar(standing(all), sections);
    expect(groups.map((group) => [group.section, group.firstBar, group.lastBar])).toEqual([
      ["Intro", 1, 1],
      ["Intro", 1, 3],
      ["Verse", 4, 4],
    ]);
    expect(groups[0]?.findings.map((each) => each.id)).toEqual(["grave", "small"]);
  });

  test("leaves out a finding whose bars are gone", () => {
    expect(groupByBar([finding("gone", "stop", [9])], sections)).toEqual([]);
  });

  test("counts by severity, silenced ones apart", () => {
    expect(countBySeverity(standing(all))).toEqual({ stop: 1, fix: 2, look: 0, note: 1 });
  });
});
