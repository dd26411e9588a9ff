/** Tunings are presets or typed; a capo shortens every string. */
import { describe, expect, test } from "vitest";
import {
  defaultSetup,
  highestFret,
  isOpen,
  lowestFret,
  neckFret,
  parseTuning,
  pitchAt,
  printTuning,
  type Setup,
  tuningName,
  tuningPresets,
  typedFret,
} from "./tuning.ts";
import { fret } from "./units.ts";

const read = (text: string) => {
  const reading = parseTuning(text);
  return reading.ok ? printTuning(reading.value) : reading.error;
};

describe("T10 a tuning is read as players write it", () => {
  test.each([
    ["D A D G A D", "D2 A2 D3 G3 A3 D4"],
    ["DADGAD", "D2 A2 D3 G3 A3 D4"],
    ["D2 A2 D3 G3 A3 D4", "D2 A2 D3 G3 A3 D4"],
    ["C G D G B E", "C2 G2 D3 G3 B3 E4"],
    ["Eb Ab Db Gb Bb Eb", "Eb2 Ab2 Db3 Gb3 Bb3 Eb4"],
    ["E♭A♭D♭G♭B♭E♭", "Eb2 Ab2 Db3 Gb3 Bb3 Eb4"],
    ["F#-B-E-A-C#-F#", "Gb2 B2 E3 A3 Db4 Gb4"],
    ["drop d", "D2 A2 D3 G3 B3 E4"],
    ["C1 E1 A1 D2 G2 B4", "C1 E1 A1 D2 G2 B4"],
    [" B1 E2 A2 D3 F#3 B3 ", "B1 E2 A2 D3 Gb3 B3"],
  ])("%s", (text, printed) => {
    expect(read(text)).toBe(printed);
  });

  test.each([
    ["D A D G A", { kind: "wrong-count", column: 9, read: "" }],
    ["D A D G A D G", { kind: "wrong-count", column: 12, read: "G" }],
    ["D A d G A D", { kind: "unknown-note", column: 4, read: "d", meant: "D" }],
    ["E A D G H E", { kind: "unknown-note", column: 8, read: "H", meant: "B" }],
    ["D2 A2 D3 G3 A3 D7", { kind: "out-of-range", column: 15, read: "D7" }],
    ["B0 E1 A1 D2 G2 C3", { kind: "out-of-range", column: 0, read: "B0" }],
    ["", { kind: "wrong-count", column: 0 }],
  ])("%s is refused where it goes wrong", (text, error) => {
    expect(read(text)).toMatchObject(error);
  });

  test("every preset reads to itself and is known by its name", () => {
    for (const { name, tuning } of tuningPresets) {
      expect(parseTuning(printTuning(tuning))).toEqual({ ok: true, value: tuning });
      expect(parseTuning(name)).toEqual({ ok: true, value: tuning });
      expect(tuningName(tuning)).toBe(name);
    }
  });
});

describe("T8 the neck begins at the capo", () => {
  const fromCapo: Setup = { ...defaultSetup, capo: fret(3), fretsFrom: "capo" };
  const fromNut: Setup = { ...defaultSetup, capo: fret(3), fretsFrom: "nut" };

  test("typed frets reach from the capo to the last fret", () => {
    expect([lowestFret(fromCapo), highestFret(fromCapo)]).toEqual([0, 19]);
    expect([lowestFret(fromNut), highestFret(fromNut)]).toEqual([3, 22]);
    expect(neckFret(fromCapo, fret(19))).toBe(22);
    expect(neckFret(fromCapo, fret(20))).toBeUndefined();
    expect(neckFret(fromNut, fret(2))).toBeUndefined();
    expect(pitchAt(fromNut, 6, fret(2))).toBeUndefined();
  });

  test("an open string sounds at the capo however it is typed", () => {
    expect(pitchAt(fromCapo, 6, fret(0))).toBe(43);
    expect(pitchAt(fromNut, 6, fret(0))).toBe(43);
    expect(pitchAt(fromNut, 6, fret(3))).toBe(43);
    expect(isOpen(fromNut, fret(3))).toBe(true);
    expect(isOpen(fromCapo, fret(3))).toBe(false);
  });

  test("a place on the neck has one typed fret, and reads back", () => {
    for (const setup of [fromCapo, fromNut]) {
      for (let place = 3; place <= 22; place++) {
        expect(neckFret(setup, typedFret(setup, fret(place)))).toBe(place);
      }
    }
  });
});
