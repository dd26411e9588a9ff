/** Each voice knows where it comes from and where it goes. */
import { type MidiNote, midiNote } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { motionsWords, motionWords } from "../words/neck.ts";
import { voicesOf } from "./voices.ts";

const pitches = (...numbers: number[]): MidiNote[] => numbers.map(midiNote);

// F7 to B♭7 and on to C7 in three voices: the guide tones A and E♭ fall a semitone to A♭ and D.
test("F A E♭, then F A♭ D, then E B♭ C", () => {
  const voices = voicesOf(pitches(53, 56, 62), pitches(53, 57, 63), pitches(52, 58, 60));
  expect(voices).toEqual([
    { pitch: 53, from: [0], to: [-1] },
    { pitch: 56, from: [-1], to: [2] },
    { pitch: 62, from: [-1], to: [-2] },
  ]);
});

test("without neighbours nothing moves anywhere", () => {
  expect(voicesOf(pitches(60), undefined, undefined)).toEqual([{ pitch: 60, from: [], to: [] }]);
});

test("motions in words", () => {
  expect([0, -1, 2, 12].map(motionWords)).toEqual(["held", "one down", "two up", "12 up"]);
});

test.each([
  [[], ""],
  [[-1], "one down"],
  [[2, 2], "two up"],
  [[2, 0], "held, two up"],
  [[9, -1, 2], "one down to nine up"],
  [[-2, -5, -9], "nine down to two down"],
] as const)("motions %j of one voice in words", (motions, words) => {
  expect(motionsWords(motions)).toBe(words);
});
