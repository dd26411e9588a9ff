/** The news of a lane names the bars that changed, and no others. */
import type { Bar, BarId, Section, SectionId, SlotId } from "@halflap/board/board";
import { fillId, strumId } from "@halflap/board/ids";
import type { Fill, Strum } from "@halflap/board/playing";
import type { Grip } from "@halflap/theory/grip";
import { fret, ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { changedBars, chordTexts, type LaneContent, rewrittenBars } from "./changed-bars.ts";

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
  fills: new Map(),
  dynamics: new Map(),
  palmMutes: new Set(),
  letRings: new Set(),
  strums: new Map(),
  strumming: { lane: undefined, sections: new Map(), bars: new Map(), passes: new Map() },
};
const [fill, strum] = [fillId("f"), strumId("p")];
const pattern = { id: strum } as Strum;
const filled = (number: number) => new Map([[fill, { id: fill, bar: bar(number).id } as Fill]]);

describe("changed bars", () => {
  test.each<[string, Partial<LaneContent>, number[]]>([
    ["nothing", {}, []],
    ["the same grips in a new map", { grips: new Map(before.grips) }, []],
    ["a grip added", { grips: new Map([...before.grips, [slot("s3"), grip(3)]]) }, [3]],
    ["a grip changed", { grips: new Map([[slot("s1"), grip(2)]]) }, [1]],
    ["a grip gone", { grips: new Map() }, [1]],
    ["a lay-out", { layOuts: new Set(["b2" as BarId]) }, [2]],
    ["a fill", { fills: filled(2) }, [2]],
    ["a dynamic", { dynamics: new Map([["b3" as BarId, "p"]]) }, [3]],
    ["a palm mute", { palmMutes: new Set(["b1" as BarId]) }, [1]],
    ["what rings on", { letRings: new Set(["b1" as BarId]) }, [1]],
    [
      "a strum",
      {
        strums: new Map([[strum, pattern]]),
        strumming: { ...before.strumming, bars: new Map([["b2" as BarId, strum]]) },
      },
      [2],
    ],
    ["a mark", { marks: new Map([["b2" as BarId, "let ring"]]) }, [2]],
  ])("%s", (_, change, bars) => {
    expect(changedBars(before, { ...before, ...change }, sections)).toEqual(bars);
  });

  test("of chords that are written anew", () => {
    const texts = chordTexts(sections);
    const [first, ...rest] = sections[0]?.bars ?? [];
    const other = first && {
      ...first,
      slots: first.slots.map((each) => ({ ...each, text: "G7" })),
    };
    const after = sections.map((each) => ({ ...each, bars: other ? [other, ...rest] : rest }));
    expect([rewrittenBars(texts, sections), rewrittenBars(texts, after)]).toEqual([[], [1]]);
  });
});
