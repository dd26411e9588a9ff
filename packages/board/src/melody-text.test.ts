/** Typed melodies: pitches by beats. */
import { ticks } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { parseMelodyText, printMelodyText } from "./melody-text.ts";

const bar = { start: ticks(0), length: ticks(192), beat: ticks(48) };
const melodyOf = (text: string) => {
  const read = parseMelodyText(text, bar);
  if (!read.ok) throw new Error(read.error.words);
  return read.value;
};

// Pitch numbers of the MIDI standard with middle C as C4 = 60 (ISO 16 counts the octaves so).
test("N6 a melody is pitches by beats", () => {
  expect(melodyOf("1 C4  2.5 Bb3/½  3.5 F#4")).toEqual([
    { start: 0, length: 72, pitch: 60 },
    { start: 72, length: 24, pitch: 58 },
    { start: 120, length: 72, pitch: 66 },
  ]);
  expect(melodyOf("1 B♭3")).toEqual(melodyOf("1 Bb3"));
});

test.each([
  ["1 H4", 2, /with its octave/],
  ["1 F", 2, /with its octave/],
  ["1 F4/2 2 G4", 2, /to the next one at most/],
  ["1 F4/1/2", 2, /how many beats/],
  ["F4", 0, /on which beat/],
])("N6 %j is no melody", (text, column, words) => {
  const read = parseMelodyText(text, bar);
  if (read.ok) throw new Error("this is no melody");
  expect(read.error.column).toBe(column);
  expect(read.error.words).toMatch(words);
});

test("N6 what is printed reads back", () => {
  const text = "1 C4  2.5 Bb3/0.5  3.5 Gb4";
  expect(printMelodyText(melodyOf(text), bar)).toBe(text);
  expect(printMelodyText(melodyOf("1 Bb3"), bar, "sharps")).toBe("1 A#3");
});
