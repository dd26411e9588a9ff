/** What is rested on is heard, what is passed over is not; off by default. */
import { createRoot } from "solid-js";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { createPointing, type Pointed } from "./create-pointing.ts";
import { barAt } from "./test-support/rehearsal.ts";
import type { Trial } from "./trial.ts";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const bars = { kind: "once", from: barAt(0), to: barAt(0) } as const;
const pointed: Pointed = { bars, lane: "upper", edits: [], slot: undefined, needsBoth: false };

function pointer() {
  const heard: Trial[] = [];
  const free = { is: true };
  const pointing = createRoot(() =>
    createPointing(
      (trial) => heard.push(trial),
      () => free.is,
    ),
  );
  return { heard, free, pointing };
}

test("off until switched on, and then after a short rest only", () => {
  const { heard, pointing } = pointer();
  pointing.rest("here", pointed);
  vi.advanceTimersByTime(1000);
  expect(heard).toEqual([]);
  pointing.setChoice("lane");
  pointing.rest("here", pointed);
  vi.advanceTimersByTime(100);
  pointing.leave("here");
  vi.advanceTimersByTime(1000);
  expect(heard).toEqual([]);
  // Something else that goes away meanwhile takes nothing with it.
  pointing.rest("here", pointed);
  pointing.leave("there");
  vi.advanceTimersByTime(1000);
  expect(heard.map((trial) => trial.heard)).toEqual(["lane"]);
});

test("the last thing rested on counts; what is about both lanes is heard in both", () => {
  const { heard, pointing } = pointer();
  pointing.setChoice("lane");
  pointing.rest("here", pointed);
  pointing.rest("there", { ...pointed, needsBoth: true });
  vi.advanceTimersByTime(1000);
  expect(heard.map((trial) => trial.heard)).toEqual(["lanes"]);
});

test("while the board is played nothing is heard by pointing, chosen or rested on", () => {
  const { heard, free, pointing } = pointer();
  pointing.setChoice("lanes");
  pointing.rest("here", pointed);
  free.is = false;
  vi.advanceTimersByTime(1000);
  pointing.choose(pointed);
  expect(heard).toEqual([]);
  free.is = true;
  pointing.choose(pointed);
  expect(heard).toHaveLength(1);
});
