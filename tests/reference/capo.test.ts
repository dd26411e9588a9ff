/** Capo and transposition against what every guitarist's table says. */

import { capoAdvice } from "@halflap/theory/capo-advice";
import { shapeChord, shapeKey, soundingOfShape } from "@halflap/theory/capo-shape";
import type { Chord } from "@halflap/theory/chord";
import { gripPitches, parseGrip, printGrip } from "@halflap/theory/grip";
import { printKey } from "@halflap/theory/key";
import { parseChord } from "@halflap/theory/parse-chord";
import { noteAbove, noteName } from "@halflap/theory/pitch";
import { key } from "@halflap/theory/test-support/as-read";
import { transposeNote, transpositionTo } from "@halflap/theory/transpose";
import { defaultSetup } from "@halflap/theory/tuning";
import { fret, semitones } from "@halflap/theory/units";
import { Interval, Note } from "tonal";
import { describe, expect, test } from "vitest";

const chord = (text: string): Chord => {
  const read = parseChord(text);
  if (!read.ok) throw new Error(`no chord: ${text}`);
  return read.value;
};
const advice = (tune: string, tonic: string) =>
  capoAdvice(
    tune.split(" ").map((symbol) => ({ chord: chord(symbol), length: 1 })),
    key(tonic),
    defaultSetup,
  );

// MusicXML 4.0, capo: it raises every open string by that many semitones. Names: common practice.
describe("T46 capo 3: shape names and sounding names", () => {
  test.each([
    ["C", "Eb"],
    ["D", "F"],
    ["E", "G"],
    ["G", "Bb"],
    ["A", "C"],
    ["B", "D"],
  ])("the %s shape sounds %s", (shape, sounding) => {
    const tune = key(sounding);
    expect(printKey(shapeKey(tune, fret(3)))).toBe(shape);
    expect(shapeChord(chord(sounding), tune, fret(3)).symbol).toBe(shape);
    expect(soundingOfShape(chord(shape), tune, fret(3)).symbol).toBe(sounding);
  });

  test("the open D7 grip over capo 3 sounds the tones of F7", () => {
    const setup = { ...defaultSetup, capo: fret(3) };
    const grip = parseGrip("x-x-0-2-1-2", setup);
    const heard = grip.ok ? gripPitches(grip.value, setup).map((pitch) => pitch % 12) : [];
    const f7 = chord("F7");
    const tones = f7.kind === "chord" ? f7.tones.map((tone) => tone.pitchClass as number) : [];
    expect(heard.every((pitchClass) => tones.includes(pitchClass))).toBe(true);
    expect(new Set(heard).size).toBe(tones.length);
  });
});

// Common practice, no source: capo players want to be in the open keys C, A, G, E and D.
describe("T48 capo advice leads to the open keys", () => {
  test.each([
    ["Eb Ab Bb Cm", "Eb"],
    ["Bb Eb F Gm", "Bb"],
    ["F# B C# D#m", "F#"],
    ["Ab Db Eb Fm", "Ab"],
    ["F Bb C Dm", "F"],
    ["B E F# G#m", "B"],
  ])("%s", (tune, tonic) => {
    const [best] = advice(tune, tonic);
    expect(best?.capo).toBeGreaterThan(0);
    expect(["C", "A", "G", "E", "D"]).toContain(best && printKey(best.shapeKey));
    expect(best?.hard).toBe(0);
  });

  test.each([
    ["G C D Em", "G"],
    ["D G A", "D"],
    ["A D E", "A"],
    ["C G Am Em", "C"],
    ["Em C G D", "E minor"],
  ])("%s needs no capo", (tune, tonic) => {
    expect(advice(tune, tonic)[0]?.capo).toBe(0);
  });

  test("the shapes are the open chords as they are taught", () => {
    const [best] = advice("G C D Em", "G");
    expect(best?.shapes.map(({ grip }) => grip && printGrip(grip))).toEqual([
      "3-2-0-0-0-3",
      "x-3-2-0-1-0",
      "x-x-0-2-3-2",
      expect.stringMatching(/^(0-2-2|x-x-2)-0-0-0$/),
    ]);
    expect(best?.words).toMatch(/^No capo: shapes in G\. 2\.\d open strings a chord; nothing is/);
  });
});

// Letters and semitones of each interval: tonal's tables, which this spelling does not use.
test("T45 notes move by interval as tonal transposes them", () => {
  const names = "C Db D Eb E F F# Gb G Ab A Bb B".split(" ");
  let compared = 0;
  for (const from of ["C", "D", "F", "G", "A", "Bb"]) {
    for (const interval of "2m 2M 3m 3M 4P 4A 5P 6m 6M 7m 7M".split(" ")) {
      const tonic = noteName(from);
      const into = tonic && noteAbove(tonic, interval);
      if (tonic === undefined || into === undefined) throw new Error("no tonic");
      const distance = semitones(Interval.semitones(interval) ?? 0);
      const by = transpositionTo(key(from), into, distance);
      if (by.into.tonic !== into) continue; // a key of more than seven signs, moved to its twin
      for (const name of names) {
        const theirs = Note.transpose(name, interval);
        const isPlain = /^[A-G][b#]?$/.test(theirs) && !/^(?:[EB]#|[CF]b)$/.test(theirs);
        const spelled = noteName(name);
        if (!isPlain || spelled === undefined) continue;
        expect(transposeNote(spelled, by), `${name} from ${from} by ${interval}`).toBe(theirs);
        compared++;
      }
    }
  }
  expect(compared).toBeGreaterThan(500);
});
