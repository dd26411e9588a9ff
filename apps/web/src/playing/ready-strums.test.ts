/** Ready patterns fill a bar of any meter. Their rhythms: common practice, no source. */
import type { Meter } from "@halflap/board/board";
import { barLengthOf, printMeter } from "@halflap/board/meter";
import { printSteps, stepLengths } from "@halflap/board/strum-text";
import { describe, expect, test } from "vitest";
import { playingWords } from "../words/playing.ts";
import { readyStrums } from "./ready-strums.ts";

const meters: readonly Meter[] = [
  { beats: 4, unit: 4 },
  { beats: 3, unit: 4 },
  { beats: 5, unit: 4 },
  { beats: 2, unit: 2 },
  { beats: 6, unit: 8 },
  { beats: 7, unit: 8 },
  { beats: 12, unit: 8 },
  { beats: 6, unit: 16 },
];

describe("ready patterns", () => {
  test.each(meters.map((meter) => [printMeter(meter), meter] as const))("fill %s", (_, meter) => {
    const ready = readyStrums(meter, playingWords.readyNames);
    expect(ready.length).toBeGreaterThan(3);
    for (const { step, steps } of ready) {
      expect(step * steps.length).toBe(barLengthOf(meter));
      expect(stepLengths).toContain(step);
      expect(steps.some(({ kind }) => kind === "stroke")).toBe(true);
    }
    const texts = ready.map(({ steps }) => printSteps(steps));
    expect(new Set(texts).size).toBe(texts.length);
    expect(new Set(ready.map(({ name }) => name)).size).toBe(ready.length);
  });

  test("are the rhythms that their names say", () => {
    const texts = (meter: Meter) =>
      Object.fromEntries(
        readyStrums(meter, playingWords.readyNames).map(({ name, steps }) => [
          name,
          printSteps(steps),
        ]),
      );
    const common = texts({ beats: 4, unit: 4 });
    expect(common["Backbeats, stopped"]).toBe("..Dx..Dx");
    expect(common["Slow halves"]).toBe("D...D...");
    expect(common["Skipping the third beat"]).toBe("D.DU.UDU");
    expect(texts({ beats: 6, unit: 8 })["Long and short"]).toBe("D.UD.U");
  });
});
