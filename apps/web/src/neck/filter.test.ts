/** Every choice of the filter is a wish that the search obeys. */
import { gripNotes } from "@halflap/theory/grip";
import { gripsOf } from "@halflap/theory/neck";
import { parseChord } from "@halflap/theory/parse-chord";
import { defaultSetup } from "@halflap/theory/tuning";
import { describe, expect, test } from "vitest";
import { areaFrets, everydayFilter, type Filter, wishesOf } from "./filter.ts";

const everyday = everydayFilter(true);

function notesUnder(change: Partial<Filter>) {
  const reading = parseChord("F7");
  if (!reading.ok || reading.value.kind !== "chord") throw new Error("F7");
  const wishes = wishesOf({ ...everyday, ...change }, true, defaultSetup.lastFret);
  const found = gripsOf(reading.value, defaultSetup, wishes);
  expect(found.length).toBeGreaterThan(0);
  return found.map((grip) => gripNotes(grip, defaultSetup));
}

describe("the filter", () => {
  test.each([
    ["small", [3, 4]],
    ["two", [2]],
    ["three", [3]],
    ["four", [4]],
    ["full", [5, 6]],
  ] as const)("%s strings", (count, sizes) => {
    const seen = new Set(notesUnder({ count }).map((notes) => notes.length));
    expect([...seen].every((size) => sizes.some((wished) => wished === size))).toBe(true);
  });

  test("the high strings leave 6 and 5 alone", () => {
    const strings = notesUnder({ strings: "high" }).flat();
    expect(strings.every((note) => note.string <= 4)).toBe(true);
  });

  test.each(["third", "fifth", "eighth", "twelfth"] as const)("%s part of the neck", (area) => {
    const [low, high] = areaFrets[area];
    const stopped = notesUnder({ area })
      .flat()
      .filter((note) => note.fret > 0);
    expect(stopped.every((note) => note.fret >= low && note.fret <= high)).toBe(true);
  });

  test("no open strings", () => {
    expect(
      notesUnder({ openStrings: false })
        .flat()
        .every((note) => note.fret > 0),
    ).toBe(true);
  });

  test("a root in every grip of four strings when it may not be left out", () => {
    const grips = notesUnder({ rootless: false, count: "four" });
    expect(grips.every((notes) => notes.some((note) => note.pitch % 12 === 5))).toBe(true);
  });
});
