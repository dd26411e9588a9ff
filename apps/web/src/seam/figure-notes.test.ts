/** Fills in the seam: their pitches by tuning and capo, their time in the bar. */
import type { Lane, Slot } from "@halflap/board/board";
import { barId, fillId, slotId } from "@halflap/board/ids";
import type { Fill, FillNote } from "@halflap/board/playing";
import { defaultSetup } from "@halflap/theory/tuning";
import { fret, ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { coveredSlots, figureNotes, figurePitches } from "./figure-notes.ts";

const slot = (id: string, start: number): Slot => ({
  ...{ id: slotId(id), start: ticks(start), length: ticks(96), text: "F7", chord: undefined },
});
const bar = {
  ...{ id: barId("b"), number: 1, length: ticks(192), rounds: undefined },
  slots: [slot("first", 0), slot("second", 96)],
};
const section = { bars: [bar] };

const note = (start: number, string: FillNote["string"], at: number): FillNote => ({
  ...{ start: ticks(start), length: ticks(48), string, fret: fret(at) },
  ...{ way: "pluck", bend: 0, letRing: false },
});

function lane(start: number, notes: readonly FillNote[]): Lane {
  const fill: Fill = {
    ...{ id: fillId("f"), bar: bar.id, start: ticks(start), length: ticks(96) },
    ...{ kind: "fill", together: false, notes },
  };
  const fills = new Map([[fill.id, fill]]);
  return { fills, layOuts: new Set(), setup: { ...defaultSetup, capo: fret(3) } } as never;
}

describe("a fill in the seam", () => {
  // Standard tuning, MIDI 1.0 numbers: string 2 open is B3 = 59, string 1 open E4 = 64.
  test("sounds where it is played, the capo counted", () => {
    const played = lane(96, [note(0, 2, 5), note(48, 1, 3)]);
    expect(figureNotes(played, section, bar)).toEqual([
      { pitch: 67, from: 0.5, to: 0.75, slot: "second" },
      { pitch: 70, from: 0.75, to: 1, slot: "second" },
    ]);
    expect(figurePitches(played)).toEqual([67, 70]);
  });

  test("nothing sounds where the lane lays out", () => {
    const rests = { ...lane(0, [note(0, 1, 0)]), layOuts: new Set([bar.id]) };
    expect(figureNotes(rests, section, bar)).toEqual([]);
  });

  test("silences the grip of a slot that it fills, but not while only its place is agreed", () => {
    expect([...coveredSlots(lane(96, [note(0, 1, 0)]), section, bar)]).toEqual(["second"]);
    expect([...coveredSlots(lane(48, [note(0, 1, 0)]), section, bar)]).toEqual([]);
    expect([...coveredSlots(lane(96, []), section, bar)]).toEqual([]);
  });
});
