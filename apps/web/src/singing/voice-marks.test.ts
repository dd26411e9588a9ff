/** What of the voice is drawn in one bar. */
import { ticks } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { voiceMarks } from "./voice-marks.ts";

const sung = [{ start: ticks(0), end: ticks(288) }];
const gaps = [{ start: ticks(288), end: ticks(384), owner: "upper" as const }];

test("a phrase over the bar line is cut at it, and the gap follows", () => {
  expect(voiceMarks(sung, gaps, 0, 192)).toEqual([{ kind: "sung", from: 0, part: 1 }]);
  expect(voiceMarks(sung, gaps, 192, 192)).toEqual([
    { kind: "sung", from: 0, part: 0.5 },
    { kind: "gap", from: 0.5, part: 0.5, owner: "upper" },
  ]);
});

test("a bar beyond both shows nothing", () => {
  expect(voiceMarks(sung, gaps, 384, 192)).toEqual([]);
});
