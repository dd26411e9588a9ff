/** What is learnt of a pedal, what is refused, and what is made of odd things remembered. */
import { expect, test } from "vitest";
import { actionOf, isPedalKey, pedalValue, withKey } from "./pedal.ts";

test("a key means what it was last learnt for, and one thing only", () => {
  const first = withKey({}, "play", "PageDown");
  expect(actionOf(first, "PageDown")).toBe("play");
  const moved = withKey(first, "next", "PageDown");
  expect(moved).toEqual({ next: "PageDown" });
  const again = withKey(moved, "next", "ArrowRight");
  expect([actionOf(again, "PageDown"), actionOf(again, "ArrowRight")]).toEqual([undefined, "next"]);
  expect(withKey(again, "next", undefined)).toEqual({});
});

test.each([
  "PageUp",
  "PageDown",
  "ArrowLeft",
  "ArrowUp",
  " ",
  "Enter",
  "b",
  "F13",
  "MediaPlayPause",
])("a pedal may send %s", (key) => {
  expect(isPedalKey(key)).toBe(true);
});

test.each(["Escape", "Tab", "Shift", "Control", "", "Unidentified"])("but not %s", (key) => {
  expect(isPedalKey(key)).toBe(false);
});

test("what was remembered is read with suspicion", () => {
  expect(pedalValue({ play: " ", next: "PageDown" })).toEqual({ play: " ", next: "PageDown" });
  expect(pedalValue({ play: "Escape", next: 7, other: "x" })).toEqual({});
  expect(pedalValue({ play: "b", next: "b" })).toEqual({ next: "b" });
  expect([pedalValue(null), pedalValue("PageDown")]).toEqual([undefined, undefined]);
});
