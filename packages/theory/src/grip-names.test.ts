/** The names players give to grips. */

import { describe, expect, test } from "vitest";
import { formOf, formWords, spacingOf } from "./grip-names.ts";
import { chord, grip } from "./test-support/as-read.ts";
import { defaultSetup, parseTuning, type Setup } from "./tuning.ts";
import { fret } from "./units.ts";

const tuned = (text: string): Setup => {
  const read = parseTuning(text);
  if (!read.ok) throw new Error(`no tuning: ${text}`);
  return { ...defaultSetup, tuning: read.value };
};
const form = (text: string, symbol: string, setup = defaultSetup) => {
  const found = formOf(grip(text), setup, chord(symbol));
  return found && formWords(found);
};

describe("T17 the spacing of a grip", () => {
  test.each([
    ["x-x-3-2-4-x", "F7", "shell"],
    ["1-x-1-2-x-x", "F7", "shell"],
    ["8-x-7-9-x-x", "C6", "shell"],
    ["x-x-4-5-3-x", "D7", "close"],
    ["x-x-x-5-5-3", "C", "close"],
    ["3-5-x-4-x-x", "G", "open"],
    ["x-3-5-4-5-x", "Cmaj7", "drop 2"],
    ["x-5-6-5-8-x", "Bb13", "drop 2"],
    ["8-x-9-9-8-x", "Cmaj7", "drop 3"],
    ["x-5-4-5-5-x", "D9", "open"],
    ["x-x-x-12-13-x", "F7", undefined],
    ["3-5-5-x-x-x", "G5", undefined],
    ["1-3-1-2-1-1", "F7", undefined],
  ])("%s for %s: %s", (text, symbol, spacing) => {
    expect(spacingOf(grip(text), defaultSetup, chord(symbol))).toBe(spacing);
  });
});

describe("T18 the open chord a grip is a moved copy of", () => {
  test.each([
    ["x-x-3-2-4-x", "F7", "E form at fret 1"],
    ["x-x-4-5-3-x", "D7", "C form at fret 2"],
    ["x-x-3-3-3-x", "Gm7", "E form at fret 3"],
    ["x-x-2-3-1-x", "C7", "open C form"],
    ["x-x-2-0-2-x", "A7", "open A form"],
    ["x-x-3-1-3-x", "Bb7", "A form at fret 1"],
    ["x-x-3-1-3-x", "Bdim7", "A form at fret 2"],
    ["3-2-0-0-0-1", "G7", "open G form"],
    ["x-x-0-2-3-3", "Dsus4", "open D form"],
    ["13-15-15-14-13-13", "F", "E form at fret 13"],
  ])("%s for %s: %s", (text, symbol, words) => {
    expect(form(text, symbol)).toBe(words);
  });

  test("none, when a grip is like two of them, or like too little of one", () => {
    expect(form("x-x-x-12-13-x", "F7")).toBeUndefined();
    expect(form("x-x-x-x-8-8", "F7")).toBeUndefined();
  });

  test("with a capo the open chord lies at the capo, as the lane counts", () => {
    const capo: Setup = { ...defaultSetup, capo: fret(3) };
    expect(form("0-2-2-1-0-0", "G", capo)).toBe("open E form");
    expect(form("2-4-4-3-2-2", "A", capo)).toBe("E form at fret 2");
    expect(form("5-7-7-6-5-5", "A", { ...capo, fretsFrom: "nut" })).toBe("E form at fret 5");
  });

  test("in another tuning only when all strings are lowered alike", () => {
    expect(form("0-2-2-1-0-0", "Eb", tuned("Half step down"))).toBe("open E form");
    expect(form("0-0-0-2-3-2", "D", tuned("Drop D"))).toBeUndefined();
  });
});
