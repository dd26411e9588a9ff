/** Names and numbers of pitches go both ways. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { classOf, midiOf, noteAbove, noteName, pitchName, spelledPitch } from "./pitch.ts";
import { midiNote } from "./units.ts";

test("a pitch name reads back to its pitch, with flats and with sharps", () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 127 }), fc.boolean(), (pitch, isFlat) => {
      return midiOf(pitchName(midiNote(pitch), isFlat ? "flats" : "sharps")) === pitch;
    }),
  );
});

test.each([
  ["B♭3", 58],
  ["Cb4", 59],
  ["B#3", 60],
  ["Fx4", 67],
  ["C-1", 0],
  ["G9", 127],
  ["G#9", undefined],
  ["H4", undefined],
  ["C", undefined],
  ["C4.5", undefined],
])("%s is %s", (name, pitch) => {
  expect(midiOf(name)).toBe(pitch);
});

test("a note has a letter and at most two accidentals", () => {
  expect(["Bb", "F♯", "G𝄪", "E♭♭", "A♮"].map(noteName)).toEqual(["Bb", "F#", "G##", "Ebb", "A"]);
  expect(["b", "Bbbb", "B#b", "H", "", "Bb3"].map(noteName)).toEqual(Array(6).fill(undefined));
});

test("a spelled pitch keeps the octave of its letter", () => {
  const spelled = (pitch: number, text: string) => {
    const name = noteName(text);
    return name === undefined ? undefined : spelledPitch(midiNote(pitch), name);
  };
  expect(spelled(60, "B#")).toBe("B#3");
  expect(spelled(59, "Cb")).toBe("Cb4");
  expect(spelled(63, "Eb")).toBe("Eb4");
});

test("past two accidentals a tone above is respelled, and sounds the same", () => {
  const root = noteName("Bbb");
  expect(root && noteAbove(root, "7d")).toBe("Gb");
  expect(root && classOf(noteAbove(root, "7d"))).toBe(6);
});
