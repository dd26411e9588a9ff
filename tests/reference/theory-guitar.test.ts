/** Pitches, frets, grips and capos against what handbooks say, with the source beside each. */

import { describeGrip } from "@halflap/theory/describe-grip";
import { gripPitches, parseGrip } from "@halflap/theory/grip";
import { fretPosition, spanOf } from "@halflap/theory/hand";
import { classOf, frequency, midiOf, noteName } from "@halflap/theory/pitch";
import { chord, grip, key } from "@halflap/theory/test-support/as-read";
import { defaultSetup, type Setup, standardTuning, tuningPresets } from "@halflap/theory/tuning";
import { fret, midiNote, millimetres } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";

const sounds = (text: string, setup: Setup = defaultSetup) => [...gripPitches(grip(text), setup)];
const capoThree: Setup = { ...defaultSetup, capo: fret(3) };
const roots = "C Db D Eb E F Gb G Ab A Bb B".split(" ");
const classes = (text: string) => chord(text).tones.map((tone) => tone.pitchClass as number);

// f = 440 · 2^((m − 69) / 12): OEIS A320304; the 440 Hz: ISO 16:1975.
describe("pitch in twelve-tone equal temperament", () => {
  test.each([
    ["E2", 40, 82.407],
    ["A2", 45, 110],
    ["D3", 50, 146.832],
    ["G3", 55, 195.998],
    ["B3", 59, 246.942],
    ["E4", 64, 329.628],
    ["C4", 60, 261.626],
    ["A4", 69, 440],
    ["A0", 21, 27.5],
    ["E1", 28, 41.203],
    ["E3", 52, 164.814],
    ["D6", 86, 1174.659],
    ["E6", 88, 1318.51],
  ])("%s is MIDI %i at %f Hz", (name, midi, hz) => {
    expect(midiOf(name)).toBe(midi);
    expect(frequency(midiNote(midi))).toBeCloseTo(hz, 3);
  });

  test("the strings lie 5 5 5 4 5 semitones apart (common practice)", () => {
    const gaps = standardTuning
      .slice(1)
      .map((pitch, index) => pitch - (standardTuning[index] ?? 0));
    expect(gaps).toEqual([5, 5, 5, 4, 5]);
  });

  test("notes that share a key of the keyboard (any theory primer; common practice)", () => {
    const pairs = "C#=Db D#=Eb E=Fb E#=F F#=Gb G#=Ab A#=Bb B=Cb B#=C".split(" ");
    for (const pair of pairs) {
      const [one, other] = pair.split("=").map((text) => noteName(text));
      expect(one && classOf(one), pair).toBe(other && classOf(other));
    }
  });

  test("the tunings by name (common practice)", () => {
    const named = Object.fromEntries(tuningPresets.map(({ name, tuning }) => [name, [...tuning]]));
    expect(named).toEqual({
      Standard: [40, 45, 50, 55, 59, 64],
      "Drop D": [38, 45, 50, 55, 59, 64],
      "Open G": [38, 43, 50, 55, 59, 62],
      DADGAD: [38, 45, 50, 55, 57, 62],
      "Half step down": [39, 44, 49, 54, 58, 63],
    });
  });
});

describe("frets: each 1/17.817 of the rest of the string (Koch, Building Electric Guitars)", () => {
  test.each([
    [1, 36.369],
    [2, 70.698],
    [3, 103.099],
    [4, 133.682],
    [5, 162.549],
    [7, 215.512],
    [8, 239.786],
    [12, 324],
    [13, 342.185],
    [15, 375.55],
    [19, 431.756],
    [24, 486],
  ])("fret %i lies %f mm from the nut on a 648 mm scale", (number, position) => {
    expect(fretPosition(defaultSetup, number)).toBeCloseTo(position, 3);
    const before = fretPosition(defaultSetup, number - 1);
    const rest = defaultSetup.scaleLength - before;
    expect(rest / (fretPosition(defaultSetup, number) - before)).toBeCloseTo(17.817, 3);
  });

  test("a 650 mm scale", () => {
    const setup = { ...defaultSetup, scaleLength: millimetres(650) };
    expect(fretPosition(setup, 12)).toBeCloseTo(325, 3);
    expect(fretPosition(setup, 1)).toBeCloseTo(36.482, 3);
  });

  test.each([
    ["x-x-x-x-1-4", 97.31],
    ["x-x-x-x-1-5", 126.18],
    ["x-x-x-x-5-8", 77.24],
    ["x-x-x-x-8-12", 84.21],
    ["x-x-x-x-12-16", 66.84],
    ["x-x-x-x-3-13", 239.09],
  ])("%s spans %f mm (from the same formula)", (text, span) => {
    expect(spanOf(grip(text), defaultSetup)).toBeCloseTo(span, 2);
  });
});

describe("grips sound what guitarists know them to sound (common practice, no source)", () => {
  test.each([
    ["x-x-7-6-8-x", [57, 61, 67], "A7", "1 3 ♭7"],
    ["x-x-3-2-4-x", [53, 57, 63], "F7", "1 3 ♭7"],
    ["x-x-3-1-3-x", [53, 56, 62], "Bb7", "5 ♭7 3"],
    ["x-x-4-5-3-x", [54, 60, 62], "D7", "3 ♭7 1"],
    ["x-x-1-2-1-x", [51, 57, 60], "F7", "♭7 3 5"],
    ["1-3-1-2-1-1", [41, 48, 51, 57, 60, 65], "F7", "1 5 ♭7 3 5 1"],
    ["3-2-0-0-0-1", [43, 47, 50, 55, 59, 65], "G7", "1 3 5 1 3 ♭7"],
  ])("%s", (text, pitches, symbol, degrees) => {
    expect(sounds(text)).toEqual(pitches);
    const described = describeGrip(grip(text), defaultSetup, chord(symbol), key("F"));
    expect(described.text.endsWith(degrees)).toBe(true);
  });

  test("x-x-3-1-3-x is also B°7 without its root", () => {
    const described = describeGrip(grip("x-x-3-1-3-x"), defaultSetup, chord("Bdim7"), key("F"));
    expect(described.rootless).toBe(true);
    expect(described.notes.every((note) => classes("Bdim7").includes(note.pitch % 12))).toBe(true);
  });

  test.each([
    ["1 3 b7", "x-x-x-10-10-11", "x-8-7-8-x-x"],
    ["3 b7 1", "x-x-x-2-4-1", "x-12-13-10-x-x"],
    ["5 b7 3", "x-x-x-5-4-5", "x-3-1-2-x-x"],
    ["b7 3 5", "x-x-x-8-10-8", "x-6-7-5-x-x"],
  ])("F7 as %s on two sets of strings", (degrees, high, low) => {
    for (const text of [high, low]) {
      const { notes } = describeGrip(grip(text), defaultSetup, chord("F7"), key("F"));
      expect(notes.map((note) => note.degree).join(" ")).toBe(degrees);
    }
  });

  test.each([
    [["4 3 2", "0 -1 1", "1 3 b7"]],
    [["4 3 2", "0 1 -1", "3 b7 1"]],
    [["4 3 2", "0 -2 0", "5 b7 3"]],
    [["4 3 2", "0 1 0", "b7 3 5"]],
    [["3 2 1", "0 0 1", "1 3 b7"]],
    [["3 2 1", "0 2 -1", "3 b7 1"]],
    [["3 2 1", "0 -1 0", "5 b7 3"]],
    [["3 2 1", "0 2 0", "b7 3 5"]],
    [["5 4 3", "0 -1 0", "1 3 b7"]],
    [["5 4 3", "0 1 -2", "3 b7 1"]],
    [["5 4 3", "0 -2 -1", "5 b7 3"]],
    [["5 4 3", "0 1 -1", "b7 3 5"]],
  ])("a dominant seventh has one shape for each order on three strings: %s", (shape) => {
    const [strings = "", steps = "", degrees = ""] = shape;
    const offsets = steps.split(" ").map(Number);
    const first = 6 - Number(strings.charAt(0));
    for (let root = 0; root < 12; root++) {
      const named = chord(`${roots[root]}7`);
      const spelled = Array.from({ length: 12 }, (_, start) => start + 4).map((start) => {
        const frets = Array.from({ length: 6 }, (_, index) => {
          const offset = offsets[index - first];
          return offset === undefined ? "x" : String(start + offset);
        });
        const { notes } = describeGrip(grip(frets.join("-")), defaultSetup, named, key("C"));
        return notes.map((note) => note.degree).join(" ");
      });
      expect(
        spelled.filter((each) => each === degrees),
        named.symbol,
      ).toHaveLength(1);
    }
  });
});

describe("a capo raises every string by its fret (MusicXML 4.0, element capo)", () => {
  test("the F7 barre three frets up is A♭7", () => {
    expect(sounds("1-3-1-2-1-1", capoThree)).toEqual([44, 51, 54, 60, 63, 68]);
    const heard = new Set(sounds("1-3-1-2-1-1", capoThree).map((pitch) => pitch % 12));
    expect(heard).toEqual(new Set(classes("Ab7")));
  });

  test("two A7 grips share five pitches and no fret", () => {
    const open = sounds("x-0-2-0-2-0");
    const shared = sounds("2-4-2-3-2-2", capoThree).filter((pitch) => open.includes(pitch));
    expect(shared).toEqual([45, 52, 55, 61, 64]);
  });

  test.each([
    ["C", "Eb"],
    ["D", "F"],
    ["E", "G"],
    ["G", "Bb"],
    ["A", "C"],
    ["B", "D"],
  ])("with the capo on 3 a %s shape sounds %s", (shape, sounding) => {
    const raised = classes(shape).map((value) => (value + 3) % 12);
    expect(raised).toEqual(classes(sounding));
  });
});

test("a fret string is read low string first, x is silent (common practice)", () => {
  const read = parseGrip("x-x-3-2-4-x", defaultSetup);
  expect(read.ok && gripPitches(read.value, defaultSetup)).toEqual([53, 57, 63]);
});
