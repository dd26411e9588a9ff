/** Every limit of the checker can be found and typed, and stays in its range. */
import { limitNames, limitTable } from "@halflap/checker/thresholds";
import { describe, expect, test } from "vitest";
import { limitFigure, limitGroups, typedLimit } from "./limit-groups.ts";

describe("limits as they are typed", () => {
  test("each stands in one group", () => {
    const shown = limitGroups.flatMap(({ rules }) => rules.flatMap(({ limits }) => limits));
    expect([...shown].sort()).toEqual([...limitNames].sort());
  });

  test("shares are typed in per cent", () => {
    expect(limitFigure("overlapFix", 0.75)).toEqual({ value: 75, least: 0, most: 100, unit: "%" });
    expect(typedLimit("overlapFix", 60)).toEqual({ set: 0.6 });
  });

  test("a figure beyond the range is brought into it, and nothing typed sets nothing", () => {
    expect(typedLimit("overlapFix", 250)).toEqual({ set: 1 });
    expect(typedLimit("fingers", -3)).toEqual({ set: limitTable.fingers.least });
    expect(typedLimit("fingers", Number.NaN)).toBeUndefined();
  });

  test("typing what a limit comes with is as good as setting it back", () => {
    for (const name of limitNames) {
      const { value } = limitFigure(name, limitTable[name].value);
      expect(typedLimit(name, value)).toEqual({ set: undefined });
    }
  });
});
