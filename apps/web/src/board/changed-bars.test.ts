/** The news of a lane names the bars that changed, and no others. */
import type { Bar, BarId, Section, SectionId, SlotId } from "@halflap/board/board";
import type { Grip } from "@halflap/theory/grip";
import { fret, ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { changedBars, type LaneContent } from "./changed-bars.ts";

const slot = (id: string) => id as SlotId;
const bar = (number: number): Bar => ({
  id: `b${number}` as BarId,
  number,
  length: ticks(192),
  rounds: undefined,
  slots: [
    { id: slot(`s${number}`), start: ticks(0), length: ticks(192), text: "C", chord: undefined },
  ],
});
const sections: readonly Section[] = [
  { id: "a" as SectionId, name: "A", borrows: undefined, bars: [bar(1), bar(2), bar(3)] },
];
const grip = (at: number): Grip => ({ frets: [fret(at), ...Array(5).fill(undefined)] });
const one = grip(1);
const before: LaneContent = {
  grips: new Map([[slot("s1"), one]]),
  layOuts: new Set(),
  marks: new Map(),
};

describe("changed bars", () => {
  test.each<[string, Partial<LaneContent>, number[]]>([
    ["nothing", {}, []],
    ["the same grips in a new map", { grips: new Map(before.grips) }, []],
    ["a grip added", { grips: new Map([...before.grips, [slot("s3"), grip(3)]]) }, [3]],
    ["a grip changed", { grips: new Map([[slot("s1"), grip(2)]]) }, [1]],
    ["a grip gone", { grips: new Map() }, [1]],
    ["a lay-out", { layOuts: new Set(["b2" as BarId]) }, [2]],
    ["a mark", { marks: new Map([["b2" as BarId, "let ring"]]) }, [2]],
  ])("%s", (_, change, bars) => {
    expect(changedBars(before, { ...before, ...change }, sections)).toEqual(bars);
  });
});
