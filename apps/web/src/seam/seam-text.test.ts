/** The seam in words. */
import { type MidiNote, midiNote } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { seamText } from "./seam-text.ts";

const pitches = (...numbers: number[]): MidiNote[] => numbers.map(midiNote);

// MIDI note numbers by the MIDI 1.0 convention, middle C = 60 = C4.
test.each([
  [
    "apart",
    pitches(67, 72),
    pitches(53, 63),
    "upper lane G4 to C5, lower lane F3 to Eb4, registers apart",
  ],
  [
    "overlapping, one note shared",
    pitches(60, 64),
    pitches(53, 60),
    "upper lane C4 to E4, lower lane F3 to C4, registers overlap from C4 to C4, both sound C4",
  ],
  ["one silent", [], pitches(53, 63), "upper lane silent, lower lane F3 to Eb4"],
  ["both silent", [], [], "both lanes silent"],
])("%s", (_, upper, lower, words) => {
  expect(seamText(upper, lower, "flats")).toBe(words);
});
