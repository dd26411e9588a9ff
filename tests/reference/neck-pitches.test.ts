/**
 * Every fret of the neck against teoria 2.5.0 (MIT): frequencies, MIDI numbers, intervals and
 * enharmonics.
 */
import { createRequire } from "node:module";
import { classOf, frequency, midiOf, noteName, pitchName } from "@halflap/theory/pitch";
import {
  defaultSetup,
  pitchAt,
  type Setup,
  stringNumbers,
  tuningPresets,
} from "@halflap/theory/tuning";
import { fret, type MidiNote } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";

type OtherNote = {
  readonly midi: () => number;
  readonly fq: () => number;
  readonly scientific: () => string;
  readonly enharmonics: () => readonly OtherNote[];
};
type OtherLibrary = {
  readonly note: ((name: string) => OtherNote) & {
    readonly fromMIDI: (midi: number) => OtherNote;
    readonly fromFrequency: (hz: number) => { readonly note: OtherNote; readonly cents: number };
  };
  readonly interval: (from: OtherNote, to: OtherNote) => { readonly semitones: () => number };
};
const other: OtherLibrary = createRequire(import.meta.url)("teoria");

const frets = Array.from({ length: 23 }, (_, at) => fret(at));
const wholeNeck = (setup: Setup): readonly (readonly [string, MidiNote])[] =>
  stringNumbers.flatMap((string) =>
    frets.flatMap((at) => {
      const pitch = pitchAt(setup, string, at);
      return pitch === undefined ? [] : [[`string ${string}, fret ${at}`, pitch] as const];
    }),
  );
/** Their names use x for a double sharp; ours are written ## as chord symbols are. */
const ours = (name: string) => name.replace("x", "##");

describe.each(tuningPresets)("all strings and frets in $name", ({ tuning }) => {
  const places = wholeNeck({ ...defaultSetup, tuning });

  test("all of them are there", () => expect(places).toHaveLength(6 * 23));

  test("sound the same frequency", () => {
    for (const [place, pitch] of places) {
      const theirs = other.note.fromMIDI(pitch);
      expect(frequency(pitch) / theirs.fq(), place).toBeCloseTo(1, 10);
      expect(other.note.fromFrequency(frequency(pitch)).note.midi(), place).toBe(pitch);
    }
  });

  test("have the same number and names", () => {
    for (const [place, pitch] of places) {
      const names = [pitchName(pitch, "flats"), pitchName(pitch, "sharps")];
      for (const name of names) expect(other.note(name).midi(), place).toBe(pitch);
      const theirs = other.note.fromMIDI(pitch);
      for (const each of [theirs, ...theirs.enharmonics()]) {
        expect(midiOf(ours(each.scientific())), each.scientific()).toBe(pitch);
        const name = noteName(ours(each.scientific()).replace(/-?\d+$/, ""));
        expect(name && classOf(name), each.scientific()).toBe(pitch % 12);
      }
    }
  });

  test("lie the same intervals apart, string by string", () => {
    for (const [low, lower] of places) {
      for (const at of [1, 3, 4, 7, 10, 12]) {
        const upper = places.find(([, pitch]) => pitch === lower + at)?.[1];
        if (upper === undefined) continue;
        const [from, to] = [pitchName(lower, "flats"), pitchName(upper, "flats")];
        const theirs = other.interval(other.note(from), other.note(to)).semitones();
        expect(theirs, `${low} and ${to}`).toBe(upper - lower);
      }
    }
  });
});

test("with a capo the open strings are its notes", () => {
  for (let capo = 0; capo <= 7; capo++) {
    const setup: Setup = { ...defaultSetup, capo: fret(capo) };
    const names = "E2 A2 D3 G3 B3 E4".split(" ");
    for (const [index, string] of stringNumbers.entries()) {
      const raised = other.note(names[index] ?? "").midi() + capo;
      expect(pitchAt(setup, string, fret(0)), `string ${string}`).toBe(raised);
    }
  }
});
