/** R28: what the hands do while their player sings, at and beside each limit. Limits ours. */
import type { SungNote } from "@halflap/board/singing";
import { midiNote, ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

const bar: Played = ["C", "-", "x-3-2-0-x-x"];
const voice = { lane: "lower", type: undefined, range: undefined } as const;
const phrases = [{ bar: 1, beat: 1, beats: 4 }];

function busy(more: Partial<SmallBoard>) {
  return check(smallBoard({ sections: bars(bar, bar), voice, phrases, ...more })).filter(
    ({ rule }) => rule === "R28",
  );
}

describe("R28 strokes", () => {
  test.each([
    ["DUDUD...........", undefined, 1.25],
    ["DUDUDU..........", "look", 1.5],
    ["DUDUDUDUD.......", "look", 2.25],
    ["DUDUDUDUDU......", "fix", 2.5],
  ])("R28 %s is %s", (text, severity, measured) => {
    const found = busy({ strums: { lower: text } });
    expect(found.map((finding) => [finding.severity, finding.measured])).toEqual(
      severity === undefined ? [] : [[severity, measured]],
    );
  });

  test("R28 a strum of eighths is no busier in 6/8 than in 4/4", () => {
    const sung = [{ bar: 1, beat: 1, beats: 2 }];
    const meter = { beats: 6, unit: 8 } as const;
    expect(busy({ meter, phrases: sung, strums: { lower: "D.D.D.D.D.D." } })).toMatchObject([
      {
        ...{ severity: "look", measured: 2 },
        words: "The lower lane plays 2 strokes a quarter note while singing.",
      },
    ]);
  });

  test("R28 one new grip at the bar line under a short phrase is one a bar, and nothing", () => {
    const other: Played = ["F", "-", "x-x-3-2-1-x"];
    const over = [{ bar: 1, beat: 4, beats: 2 }];
    const changing = { sections: bars(bar, other), strums: { lower: "D.D.D.D." }, phrases: over };
    expect(busy({ ...changing, limits: { singShift: 300 } })).toEqual([]);
  });

  test("R28 names the player and what is measured", () => {
    expect(busy({ strums: { lower: "D.DU.UDU" } })).toMatchObject([
      {
        ...{ lanes: ["lower"], bars: ["b1"], threshold: 1.5 },
        words: "The lower lane plays 1.5 strokes a beat while singing.",
      },
    ]);
  });

  test("R28 ghost strokes and palm mutes keep the hand as busy", () => {
    expect(busy({ strums: { lower: "DudUduDu" }, palmMutes: { lower: [1] } })).toHaveLength(1);
  });

  test("R28 only for the lane whose player sings, and while singing", () => {
    const strums = { lower: "DUDUDUDU" };
    expect(busy({ strums, voice: { ...voice, lane: "upper" } })).toEqual([]);
    expect(busy({ strums, voice: { ...voice, lane: undefined } })).toEqual([]);
    expect(busy({ strums: { lower: { 1: "D.......", 2: "DUDUDUDU" } } })).toEqual([]);
  });

  test("R28 busy phrases of a passage are one finding, measured by the busiest", () => {
    const strums = { lower: { 1: "DUDUDU..", 2: "DUDUDUDU" } };
    const two = [
      { bar: 1, beat: 1, beats: 3 },
      { bar: 2, beat: 1, beats: 3 },
    ];
    expect(busy({ strums, phrases: two })).toMatchObject([{ measured: 2, bars: ["b1", "b2"] }]);
  });
});

describe("R28 grips", () => {
  const grip = (frets: string): Played => ["C", "-", frets];
  const low = grip("x-x-2-2-x-x");
  const near = grip("x-x-3-3-x-x");

  test("R28 one change a bar is nothing, more is a look", () => {
    expect(busy({ sections: [[[low, near]]] })).toEqual([]);
    expect(busy({ sections: [[[low, near, low, low]]] })).toMatchObject([
      { severity: "look", measured: 2, threshold: 1 },
    ]);
  });

  test("R28 a hand that goes up to 60 mm in a phrase is nothing, farther is a look", () => {
    // Frets 2 and 4 of 648 mm lie 63.0 mm apart, 5 and 7 lie 53.0 mm.
    const shift = (from: string, to: string) => busy({ sections: [[[grip(from), grip(to)]]] });
    expect(shift("x-x-5-5-x-x", "x-x-7-7-x-x")).toEqual([]);
    const [finding, ...more] = shift("x-x-2-2-x-x", "x-x-4-4-x-x");
    expect(more).toEqual([]);
    expect(finding).toMatchObject({ severity: "look", threshold: 60 });
    expect(finding?.measured).toBeCloseTo(62.98, 2);
    expect(shift("x-x-0-0-x-x", "x-x-9-9-x-x")).toEqual([]);
  });

  test("R28 a change between phrases is made without the voice", () => {
    const sections = bars(low, grip("x-x-9-9-x-x"));
    const two = [
      { bar: 1, beat: 1, beats: 3 },
      { bar: 2, beat: 1, beats: 4 },
    ];
    expect(busy({ sections, phrases: two })).toEqual([]);
    expect(busy({ sections, phrases: [{ bar: 1, beat: 1, beats: 8 }] })).toHaveLength(1);
  });

  test("R28 says the gravest first and the rest after a semicolon", () => {
    const [finding] = busy({
      sections: [[[low, grip("x-x-9-9-x-x")]]],
      strums: { lower: "DUDUDUDUDUDUDUDU" },
    });
    expect(finding).toMatchObject({ severity: "fix", measured: 4 });
    expect(finding?.words).toMatch(
      /^The lower lane plays 4 strokes.*; the lower lane's hand jumps/,
    );
  });
});

describe("R28 off the beat", () => {
  test("R28 three strokes that are all off the beat are a note, two or one on it are none", () => {
    expect(busy({ strums: { lower: ".U.U.U.." } })).toMatchObject([
      { severity: "note", measured: 3, threshold: 3 },
    ]);
    expect(busy({ strums: { lower: ".U.U...." } })).toEqual([]);
    expect(busy({ strums: { lower: ".U.U.UD." } })).toEqual([]);
  });

  test("R28 not under a melody that is off the beat itself", () => {
    const sung = (start: number): SungNote => ({
      start: ticks(start),
      length: ticks(24),
      pitch: midiNote(60),
    });
    const under = (melody: readonly SungNote[]) =>
      busy({ strums: { lower: ".U.U.U.." }, phrases: [{ bar: 1, beat: 1, beats: 4, melody }] });
    expect(under([sung(24), sung(72)])).toEqual([]);
    expect(under([sung(24), sung(48)])).toHaveLength(1);
  });
});
