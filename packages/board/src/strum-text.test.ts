/** Typed strum patterns: what is read, what is refused, and that printing says the same. */
import { ticks } from "@halflap/theory/units";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { strumStepsMax } from "./limits.ts";
import type { Step } from "./playing.ts";
import { parseStrumText, printSteps, printStrumText, stepFor } from "./strum-text.ts";

const stepsOf = (text: string) => {
  const read = parseStrumText(text);
  if (!read.ok) throw new Error(read.error.words);
  return read.value;
};
const kinds = (text: string) => stepsOf(text).map(({ kind }) => kind);

const stroke: fc.Arbitrary<Step> = fc
  .record({
    kind: fc.constant("stroke" as const),
    way: fc.constantFrom("down" as const, "up" as const),
    weight: fc.constantFrom("plain" as const, "accent" as const, "ghost" as const),
    push: fc.boolean(),
  })
  .map((made) => ({ ...made, push: made.push && made.weight !== "ghost" }));
const step = fc.oneof(
  stroke,
  fc.constant<Step>({ kind: "rest" }),
  fc.constant<Step>({ kind: "choke" }),
);

describe("S1 a sign a step", () => {
  test("D and U strike, a dot waits, x stops the strings", () => {
    expect(kinds("D.Ux")).toEqual(["stroke", "rest", "stroke", "choke"]);
    expect(stepsOf("DU")).toMatchObject([{ way: "down" }, { way: "up" }]);
  });

  test("S2 small letters are ghosts, > accents, ~ pushes", () => {
    expect(stepsOf("du>D~U~>D")).toEqual([
      { kind: "stroke", way: "down", weight: "ghost", push: false },
      { kind: "stroke", way: "up", weight: "ghost", push: false },
      { kind: "stroke", way: "down", weight: "accent", push: false },
      { kind: "stroke", way: "up", weight: "plain", push: true },
      { kind: "stroke", way: "down", weight: "accent", push: true },
    ]);
  });

  test("S3 spaces and bar lines are for the eye", () => {
    expect(stepsOf(" D. DU | .U DU ")).toEqual(stepsOf("D.DU.UDU"));
  });
});

describe("S4 what is wrong is said where it stands", () => {
  test.each([
    ["", 0, "", /needs a step/],
    [" | ", 0, "", /needs a step/],
    ["D.K.", 2, "K", /“K” is no step/],
    ["D>.", 1, ">.", /before a stroke/],
    ["D >", 2, ">", /stroke is missing/],
    ["> D", 0, ">", /stroke is missing/],
    [">d", 0, ">d", /ghost/],
    [">>D", 0, ">>D", /enough/],
    ["D".repeat(strumStepsMax + 1), strumStepsMax, "D", /96 steps/],
    ["😀", 0, "😀", /no step/],
  ])("%j", (text, column, read, words) => {
    const found = parseStrumText(text);
    if (found.ok) throw new Error("this is no pattern");
    expect(found.error).toMatchObject({ column, read });
    expect(found.error.words).toMatch(words);
  });
});

test("S5 printing parts the beats", () => {
  const steps = stepsOf("D.DU.UDU");
  expect(printStrumText({ step: ticks(24), steps })).toBe("D. DU .U DU");
  expect(printStrumText({ step: ticks(12), steps })).toBe("D.DU .UDU");
  expect(printStrumText({ step: ticks(32), steps })).toBe("D.DU.UDU");
  expect(printStrumText({ step: ticks(24), steps }, 72)).toBe("D.D U.U DU");
});

test("S5 what is printed reads back", () => {
  fc.assert(
    fc.property(fc.array(step, { minLength: 1, maxLength: strumStepsMax }), (steps) => {
      expect(stepsOf(printSteps(steps))).toEqual(steps);
      expect(stepsOf(printStrumText({ step: ticks(24), steps }))).toEqual(steps);
    }),
  );
});

// Common practice, no source: eighths, sixteenths and triplets of the usual meters.
test.each([
  [192, 8, 24],
  [192, 16, 12],
  [192, 12, 16],
  [192, 4, 48],
  [144, 6, 24],
  [144, 12, 12],
  [192, 7, undefined],
  [192, 10, undefined],
])("S6 in a bar of %i ticks %i steps last %s ticks each", (bar, steps, length) => {
  expect(stepFor(ticks(bar), steps)).toBe(length);
});
