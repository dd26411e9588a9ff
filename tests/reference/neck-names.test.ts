/** What grips are called, against how textbooks and teachers make and name them. */

import { describeGrip } from "@halflap/theory/describe-grip";
import { usualHand } from "@halflap/theory/fingers";
import { gripPitches, printGrip } from "@halflap/theory/grip";
import { formOf, formWords, type Spacing, spacingOf } from "@halflap/theory/grip-names";
import { parseKey } from "@halflap/theory/key";
import { fullWishes, gripsOf } from "@halflap/theory/neck";
import { chord, grip } from "@halflap/theory/test-support/as-read";
import { defaultSetup } from "@halflap/theory/tuning";
import { fret } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";

const key = parseKey("C");
const degreesOf = (text: string, symbol: string) => {
  if (!key.ok) throw new Error("no key");
  const { notes } = describeGrip(grip(text), defaultSetup, chord(symbol), key.value);
  return notes.map((note) => note.degree).join(" ");
};
const spacing = (text: string, symbol: string) =>
  spacingOf(grip(text), defaultSetup, chord(symbol));

// Drop 2 lowers the second note from the top of a close chord by an octave, drop 3 the third:
// C E G B becomes G C E B and E C G B (Hindmarsh, "Drop 2 and Drop 3 Voicings", lesson page).
describe("drop 2 and drop 3", () => {
  test.each([
    ["x-x-5-5-5-7", "5 1 3 7", "drop 2"],
    ["x-3-5-4-5-x", "1 5 7 3", "drop 2"],
    ["12-x-10-12-12-x", "3 1 5 7", "drop 3"],
    ["8-x-9-9-8-x", "1 7 3 5", "drop 3"],
  ])("Cmaj7 as %s, %s, is %s", (text, degrees, named) => {
    expect(degreesOf(text, "Cmaj7")).toBe(degrees);
    expect(spacing(text, "Cmaj7")).toBe(named);
  });

  /** Semitones above the root: the chord kinds of MusicXML 4.0. */
  const kinds = [
    ["Cmaj7", [0, 4, 7, 11]],
    ["F7", [0, 4, 7, 10]],
    ["Gm7", [0, 3, 7, 10]],
    ["Bm7b5", [0, 3, 6, 10]],
    ["Edim7", [0, 3, 6, 9]],
    ["A6", [0, 4, 7, 9]],
  ] as const;

  /** Steps from the lowest note, of a close chord with one of its voices an octave down. */
  const dropped = (close: readonly number[], voice: number) => {
    const notes = close.map((note, index) => (index === voice ? note - 12 : note));
    const [lowest = 0, ...rest] = notes.sort((one, other) => one - other);
    return rest.map((note) => note - lowest).join(" ");
  };

  test.each(kinds)("every four-part grip of %s is named as it is made", (symbol, steps) => {
    const made = new Map<string, Spacing>();
    for (let inversion = 0; inversion < 4; inversion++) {
      const close = steps
        .map((step, index) => (index < inversion ? step + 12 : step))
        .sort((one, other) => one - other);
      made.set(dropped(close, 4), "close");
      made.set(dropped(close, 2), "drop 2");
      made.set(dropped(close, 1), "drop 3");
    }
    const wishes = {
      ...fullWishes(false),
      sounding: { min: 4, max: 4 },
      highestFret: fret(12),
      openReach: undefined,
      spanMax: usualHand.spanMax,
    };
    const seen = new Set<string>();
    for (const each of gripsOf(chord(symbol), defaultSetup, wishes)) {
      const [lowest = 0, ...rest] = gripPitches(each, defaultSetup);
      if (new Set([lowest, ...rest].map((note) => note % 12)).size < 4) continue;
      const named = made.get(rest.map((note) => note - lowest).join(" ")) ?? "open";
      expect(spacingOf(each, defaultSetup, chord(symbol)), printGrip(each)).toBe(named);
      seen.add(named);
    }
    expect([...seen].sort()).toEqual(["close", "drop 2", "drop 3", "open"]);
  });
});

// Close: at most an octave from top to bottom, open: more (Kostka & Payne, Tonal Harmony, 5th
// edition, p. 74, quoted in the encyclopedia article "Close and open harmony").
test.each([
  ["x-x-x-5-5-3", "C", "close"],
  ["x-x-10-9-8-8", "C", "close"],
  ["x-3-5-x-5-x", "C", "open"],
])("%s is %s in %s spacing", (text, symbol, named) => {
  expect(spacing(text, symbol)).toBe(named);
});

// A shell is root, third and seventh, the fifth left out ("Lesson 6, seventh chord three note
// voicings", 2008, gitbuddy.wordpress.com, and common practice).
test.each([
  ["3-x-3-4-x-x", "G7", "1 b7 3"],
  ["3-2-3-x-x-x", "G7", "1 3 b7"],
  ["x-3-2-4-x-x", "Cmaj7", "1 3 7"],
  ["x-3-x-3-4-x", "Cm7", "1 b7 b3"],
])("%s is a shell of %s", (text, symbol, degrees) => {
  expect(degreesOf(text, symbol)).toBe(degrees);
  expect(spacing(text, symbol)).toBe("shell");
});

// Each movable grip is named after the open chord it looks like (common practice).
describe("the five forms", () => {
  const open = [
    ["x-3-2-0-1-0", "C", 0],
    ["x-0-2-2-2-0", "A", 9],
    ["3-2-0-0-0-3", "G", 7],
    ["0-2-2-1-0-0", "E", 4],
    ["x-x-0-2-3-2", "D", 2],
  ] as const;
  const roots = "C Db D Eb E F Gb G Ab A Bb B".split(" ");

  test.each(open)("%s keeps the name of %s wherever it is moved", (text, letter, root) => {
    for (let up = 0; up <= 12; up++) {
      const frets = text.split("-").map((at) => (at === "x" ? at : Number(at) + up));
      const symbol = roots[(root + up) % 12] ?? "";
      const found = formOf(grip(frets.join("-")), defaultSetup, chord(symbol));
      expect(found, `${symbol} ${frets.join("-")}`).toEqual({ letter, fret: up });
    }
  });

  test.each([
    ["x-0-2-2-1-0", "Am", "open A form"],
    ["0-2-2-0-0-0", "Em", "open E form"],
    ["x-x-0-2-3-1", "Dm", "open D form"],
    ["x-0-2-0-2-0", "A7", "open A form"],
    ["0-2-0-1-0-0", "E7", "open E form"],
    ["x-x-0-2-1-2", "D7", "open D form"],
    ["x-3-2-3-1-0", "C7", "open C form"],
    ["3-2-0-0-0-1", "G7", "open G form"],
    ["1-3-3-2-1-1", "F", "E form at fret 1"],
    ["x-2-4-4-3-2", "Bm", "A form at fret 2"],
    ["x-2-3-2-3-x", "Bm7b5", "A form at fret 2"],
  ])("%s for %s is the %s", (text, symbol, words) => {
    const found = formOf(grip(text), defaultSetup, chord(symbol));
    expect(found && formWords(found)).toBe(words);
  });

  // Jamieson, "The CAGED system", 2014 (lesson page): the ninth chord on string 5 is a C form.
  test("x-5-4-5-5-x, D9, is the C form at fret 2", () => {
    const found = formOf(grip("x-5-4-5-5-x"), defaultSetup, chord("D9"));
    expect(found).toEqual({ letter: "C", fret: 2 });
  });
});
