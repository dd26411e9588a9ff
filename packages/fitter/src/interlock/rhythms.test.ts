/** Which grids a section has, and which rhythms are tried on them. */
import type { Meter } from "@halflap/board/board";
import { barLengthOf, beatOf } from "@halflap/board/meter";
import { ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import type { Ground } from "./ground.ts";
import { differentBeats, gridsFor, placesOf, rhythmsFor } from "./rhythms.ts";

/** A bar of a meter in which the other lane strikes nothing. */
function ground(meter: Meter, more: Partial<Ground> = {}): Ground {
  const cycle = barLengthOf(meter);
  return {
    bars: [],
    barIds: new Set(),
    ...{ cycle, meter, beat: beatOf(meter), present: undefined, feel: "board" },
    isInThrees: beatOf(meter) > 192 / meter.unit,
    ...{ isSwung: false, isOtherStrummed: false, mixed: new Set() },
    ...more,
  };
}

const steps = (of: Ground) => gridsFor(of).map(({ step }) => Number(step));

describe("grids", () => {
  test.each<[string, Meter, boolean, readonly number[]]>([
    ["4/4 has quarters, eighths, sixteenths", { beats: 4, unit: 4 }, false, [48, 24, 12]],
    ["swung it has triplets instead", { beats: 4, unit: 4 }, true, [48, 24, 16]],
    ["3/4 as 4/4", { beats: 3, unit: 4 }, false, [48, 24, 12]],
    ["5/4 as 4/4", { beats: 5, unit: 4 }, false, [48, 24, 12]],
    ["6/8 has beats of three", { beats: 6, unit: 8 }, false, [72, 24, 12]],
    ["7/8 has eighths as beats", { beats: 7, unit: 8 }, false, [24, 12]],
    ["2/2 is strummed in quarters", { beats: 2, unit: 2 }, false, [48, 24, 12]],
    ["6/16 has its sixteenths", { beats: 6, unit: 16 }, false, [12]],
  ])("%s", (_, meter, isSwung, expected) => {
    expect(steps(ground(meter, { isSwung }))).toEqual(expected);
  });

  test("the grid that is strummed now is kept", () => {
    const present = { step: ticks(12), steps: [] } as unknown as Ground["present"];
    expect(steps(ground({ beats: 4, unit: 4 }, { isSwung: true, present }))).toContain(12);
  });
});

describe("rhythms", () => {
  const tried = (of: Ground) => rhythmsFor(of).map((each) => placesOf(each).join(" "));

  test("are different, never empty, and on the coarsest grid that holds them", () => {
    for (const meter of [
      { beats: 4, unit: 4 },
      { beats: 5, unit: 4 },
      { beats: 6, unit: 8 },
      { beats: 12, unit: 8 },
    ] as const) {
      const places = tried(ground(meter));
      expect(new Set(places).size).toBe(places.length);
      expect(places).not.toContain("");
    }
    const quarters = rhythmsFor(ground({ beats: 4, unit: 4 })).find(
      (each) => placesOf(each).join(" ") === "0 48 96 144",
    );
    expect(quarters?.grid.step).toBe(48);
  });

  // Toussaint, The Euclidean Algorithm Generates Traditional Musical Rhythms, 2005: E(3,8) is the
  // tresillo, E(5,8) the cinquillo, E(5,16) the bossa-nova.
  test.each([
    ["tresillo", [3, 3, 2], 24],
    ["cinquillo", [2, 1, 2, 1, 2], 24],
    ["bossa-nova", [3, 3, 4, 3, 3], 12],
  ])("the %s is among them from every step on", (_, intervals, step) => {
    const all = tried(ground({ beats: 4, unit: 4 }));
    const onsets = intervals.map((_, index) =>
      intervals.slice(0, index).reduce((sum, each) => sum + each, 0),
    );
    const cycle = 192 / step;
    for (let from = 0; from < cycle; from += 1) {
      const turned = onsets.map((onset) => (onset + from) % cycle).sort((a, b) => a - b);
      expect(all).toContain(turned.map((each) => each * step).join(" "));
    }
  });

  test("what the other lane leaves open is among them", () => {
    const other = [0, 24, 96, 120].map((at) => ({ at: ticks(at), sounds: ticks(at) }));
    const bar = { count: 1, other, filled: [], ownFills: [], otherFills: [], sung: [] };
    const bars = [bar] as unknown as Ground["bars"];
    expect(tried(ground({ beats: 4, unit: 4 }, { bars }))).toContain("48 72 144 168");
  });

  test("beats that are not alike are counted", () => {
    const struck = (text: string) => [...text].map((sign) => sign === "x");
    const grid = { step: ticks(24), steps: 8, perBeat: 2 };
    expect(differentBeats({ grid, struck: struck("x.x.x.x.") })).toBe(1);
    expect(differentBeats({ grid, struck: struck("x.xxx.xx") })).toBe(2);
    expect(differentBeats({ grid, struck: struck("x..xxx..") })).toBe(4);
  });
});
