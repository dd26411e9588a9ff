/** The arm's ways over a grid, accents, chokes, and how fast it goes round. Common practice. */
import { strumId } from "@halflap/board/ids";
import type { Strum } from "@halflap/board/playing";
import { parseStrumText, printSteps } from "@halflap/board/strum-text";
import { assert, ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import type { GridRhythm } from "./rhythms.ts";
import { armCycle, dressFor, strokesOf } from "./strokes.ts";

/** "x..x" on a grid of so many steps a beat. */
function rhythm(text: string, step: number, perBeat: number): GridRhythm {
  const struck = [...text].map((sign) => sign === "x");
  return { grid: { step: ticks(step), steps: struck.length, perBeat }, struck };
}

function signs(on: GridRhythm, dress: Parameters<typeof strokesOf>[1] = "plain"): string {
  return printSteps(strokesOf(on, dress).steps);
}

function steps(text: string) {
  const read = parseStrumText(text);
  assert(read.ok, `a pattern: ${text}`);
  return read.value;
}

/** What the lane strums now. */
function present(text: string): Strum {
  const more = { feel: "board", palmMute: false } as const;
  return { id: strumId("now"), name: "", step: ticks(24), steps: steps(text), ...more };
}

describe("the arm", () => {
  test.each([
    ["eighths", rhythm("x.xx.xxx", 24, 2), "D.DU.UDU"],
    ["sixteenths", rhythm("xxxx.xx...x.x...", 12, 4), "DUDU.UD...D.D..."],
    ["quarters", rhythm("xxxx", 48, 1), "DDDD"],
    ["three eighths a beat", rhythm("x.xx.x", 24, 3), "D.UD.U"],
    ["three eighths a beat, none left out", rhythm("xxxxxx", 24, 3), "DUDUDU"],
  ])("swings down on the beat and up off it: %s", (_, on, text) => {
    expect(signs(on)).toBe(text);
  });

  test("goes round once from a stroke to the next one the same way, over the bar line too", () => {
    expect(armCycle(steps("DUDU"))).toBe(2);
    expect(armCycle(steps("DDDD"))).toBe(1);
    expect(armCycle(steps("D...D..U"))).toBe(4);
    expect(armCycle(steps("D......."))).toBe(8);
    expect(armCycle(steps("...."))).toBe(Number.POSITIVE_INFINITY);
  });
});

describe("the dress", () => {
  test("leans on the second beat of two where others are struck as well", () => {
    const on = rhythm("x.xx.xx.", 24, 2);
    expect(dressFor(on, undefined)).toBe("back-beat");
    expect(signs(on, "back-beat")).toBe("D.>DU.U>D.");
  });

  test("keeps a pattern plain that has no accent now, and none has a back-beat of three", () => {
    expect(dressFor(rhythm("x.xx.xx.", 24, 2), present("D.D.D.D."))).toBe("plain");
    expect(dressFor(rhythm("x.xx.x", 24, 2), undefined)).toBe("plain");
  });

  test("chops what strikes the back-beats alone, within the beat", () => {
    const on = rhythm(".x.x", 48, 1);
    expect(dressFor(on, undefined)).toBe("chopped");
    expect(strokesOf(on, "chopped")).toEqual({ step: 24, steps: steps("..Dx..Dx") });
  });

  test("chops on where the lane chops now and there is room, round the bar line", () => {
    const chops = present("..Dx..Dx");
    const on = rhythm(".x.x.x.x", 24, 2);
    expect(dressFor(on, chops)).toBe("chopped");
    expect(signs(on, "chopped")).toBe("xUxUxUxU");
    expect(dressFor(rhythm("xx..xx..", 24, 2), chops)).toBe("plain");
  });
});
