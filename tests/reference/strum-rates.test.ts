/**
 * How long beats, strokes and arm movements last: arithmetic of the tempo, and the published limits
 * of hand and ear that the rules about rhythm rest on.
 */
import { type BoardCopy, fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { check } from "@halflap/checker/check";
import { limitTable } from "@halflap/checker/thresholds";
import { msOf, preparedBoard } from "@halflap/checker/tune";
import { ticksPerQuarter } from "@halflap/theory/units";
import { timelineOf } from "@halflap/timeline/passages";
import { describe, expect, test } from "vitest";

/** The demo with one pattern of sixteenths throughout the lower lane, at another tempo. */
function sixteenths(tempo: number, steps: string) {
  const copy: BoardCopy = demoSolution();
  const strum = { name: "", step: 12, feel: "straight", palmMute: false, steps } as const;
  const lower = {
    ...copy.lanes.lower,
    ...{ strums: { s: strum }, strumLane: "s", strumSections: {}, strumBars: {}, fills: {} },
  };
  const documents = emptyDocuments();
  fillDocuments(documents, { ...copy, tempo, lanes: { ...copy.lanes, lower } });
  return makeReader(documents)();
}

const bothWays = "DUDUDUDUDUDUDUDU";

/** The cycles a second that R22 measures in the lower lane, where it speaks. */
function cycles(tempo: number, steps = bothWays): readonly (readonly [string, number])[] {
  const found = check(sixteenths(tempo, steps)).filter(({ rule }) => rule === "R22");
  expect(found.every(({ lanes }) => lanes.join() === "lower")).toBe(true);
  return found.map(({ severity, measured }) => [severity, measured]);
}

// 60,000 ms a minute over the beats of a minute.
describe("time at a tempo", () => {
  const { tune } = preparedBoard(sixteenths(104, bothWays));

  test.each([
    ["a beat", ticksPerQuarter, 576.92],
    ["an eighth", ticksPerQuarter / 2, 288.46],
    ["a sixteenth", ticksPerQuarter / 4, 144.23],
    ["a bar of 4/4", 4 * ticksPerQuarter, 2307.69],
  ])("at 104 BPM %s lasts %f", (_, length, ms) => {
    expect(msOf(length, tune)).toBeCloseTo(ms, 2);
  });

  test("at 104 BPM the 56 bars of the demo last 129.23 s", () => {
    expect(msOf(timelineOf(sixteenths(104, bothWays)).length, tune) / 1000).toBeCloseTo(129.23, 2);
  });

  test.each([
    [120, 125],
    [150, 100],
  ])("at %i BPM a sixteenth lasts %i ms", (tempo, ms) => {
    expect(msOf(ticksPerQuarter / 4, { ...tune, tempo })).toBe(ms);
  });
});

describe("R22 measures strokes and arm cycles", () => {
  test("sixteenths at 104 BPM are 6.933 strokes a second, 3.467 cycles: no finding", () => {
    expect(cycles(104)).toEqual([]);
  });

  test("all one way they are as many cycles as strokes: 6.933", () => {
    const found = cycles(104, "DDDDDDDDDDDDDDDD");
    expect(found.length).toBeGreaterThan(0);
    for (const [severity, measured] of found) {
      expect(severity).toBe("fix");
      expect(measured).toBeCloseTo(6.933, 3);
    }
  });

  test("at 150 BPM they are ten strokes a second, five cycles: hard, not too hard", () => {
    const found = cycles(150);
    expect(found.length).toBeGreaterThan(0);
    for (const [severity, measured] of found) {
      expect(severity).toBe("look");
      expect(measured).toBeCloseTo(5, 10);
    }
  });

  // The limits lie at 5 and 7 cycles: just beyond 150 and 210 BPM.
  test.each([
    [151, "fix"],
    [210, "fix"],
    [211, "stop"],
  ])("at %i BPM they are a %s", (tempo, severity) => {
    expect(new Set(cycles(tempo).map(([each]) => each))).toEqual(new Set([severity]));
  });
});

describe("limits stand where the literature has them", () => {
  // Fujii, Kudo, Ohtsuki & Oda, Neurosci. Lett. 459, 2009: rapid movement of one hand 5 to 7 Hz,
  // the record 10 Hz.
  test("R22 a fix from the slowest limit published for one hand, a stop from the fastest", () => {
    expect([limitTable.armFix.value, limitTable.armStop.value]).toEqual([5, 7]);
    expect(limitTable.armLook.value).toBeLessThan(limitTable.armFix.value);
  });

  // Repp, J. Mot. Behav. 35, 2003, and Rate limits of sensorimotor synchronization, 2006.
  test("R22 keeping time breaks down at 8 to 10 Hz, intervals of 100 to 125 ms", () => {
    expect(limitTable.shortStep.value).toBe(1000 / 10);
  });

  // Preprint osf jsg94: asynchrony of guitar and bass in a groove is just noticed at 31 to 35 ms.
  test("R20 a flam reaches to where guitars are just heard apart", () => {
    expect(limitTable.flam.value).toBe(35);
  });
});
