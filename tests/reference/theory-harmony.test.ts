/** Chords, keys and voice leading against what handbooks say, with the source beside each. */
import { gripPitches } from "@halflap/theory/grip";
import { fifthsOf } from "@halflap/theory/key";
import { classOf } from "@halflap/theory/pitch";
import { romanNumeral } from "@halflap/theory/roman-numeral";
import { chord, grip, key } from "@halflap/theory/test-support/as-read";
import { threadsBetween } from "@halflap/theory/threads";
import { defaultSetup } from "@halflap/theory/tuning";
import { type MidiNote, midiNote } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";

const roots = "C Db D Eb E F Gb G Ab A Bb B".split(" ");
const classes = (text: string) => chord(text).tones.map((tone) => tone.pitchClass as number);

describe("harmony", () => {
  test("C7 is 0 4 7 10 (MusicXML 4.0, kind-value dominant)", () => {
    expect(classes("C7")).toEqual([0, 4, 7, 10]);
  });

  // Counted from the tones.
  test("common tones of two dominant sevenths by distance of their roots", () => {
    const common = roots.map(
      (root) => classes(`${root}7`).filter((value) => classes("C7").includes(value)).length,
    );
    expect(common).toEqual([4, 0, 1, 2, 1, 1, 2, 1, 1, 2, 1, 0]);
  });

  test("least motion between dominant sevenths (taxicab size; Tymoczko, Science 313, 2006)", () => {
    const least = roots.map((root) => Math.min(...placings(classes(`${root}7`)).map(motionFromC7)));
    expect(least).toEqual([0, 4, 4, 2, 4, 4, 2, 4, 4, 2, 4, 4]);
  });

  // Common practice, no source.
  test("V7/V to V7 on one set of strings holds one voice and moves two down", () => {
    const threads = threadsBetween(
      gripPitches(grip("x-x-5-4-6-x"), defaultSetup),
      gripPitches(grip("x-x-5-3-5-x"), defaultSetup),
    );
    expect(threads.pairs.map((pair) => pair.motion)).toEqual([0, -1, -1]);
  });

  test("guide tones of ii-V-I fall or stay (common practice)", () => {
    const [ii, v, i] = ["Gm7", "C7", "Fmaj7"].map((text) =>
      chord(text).guideTones.map((tone) => tone.pitchClass as number),
    );
    expect(ii).toEqual([10, 5]);
    expect(v).toEqual([4, 10]);
    expect(i).toEqual([9, 4]);
  });

  // Common practice, no source.
  test("in a chain of dominants third and seventh fall to seventh and third", () => {
    const [third, seventh] = chord("D7").guideTones;
    const [nextThird, nextSeventh] = chord("G7").guideTones;
    expect((third?.pitchClass ?? 0) - 1).toBe(nextSeventh?.pitchClass);
    expect(((seventh?.pitchClass ?? 0) + 11) % 12).toBe(nextThird?.pitchClass);
  });

  test("C7 and G♭7 share third and seventh (Wikibooks, Music Theory, substitute dominants)", () => {
    const guides = (text: string) => new Set(chord(text).guideTones.map((tone) => tone.pitchClass));
    expect(guides("C7")).toEqual(guides("Gb7"));
    expect(chord("Gb7").guideTones.map((tone) => tone.name)).toEqual(["Bb", "Fb"]);
  });

  test("B♭7 to B°7 moves one voice by a semitone (counted from the tones)", () => {
    const from = classes("Bb7");
    const to = classes("Bdim7");
    expect(from.filter((value) => !to.includes(value))).toEqual([10]);
    expect(to.filter((value) => !from.includes(value))).toEqual([11]);
  });

  // The circle of fifths, in any theory primer.
  test("signatures by fifths; a relative minor lies three semitones below", () => {
    const sharps = "C A 0,G E 1,D B 2,A F# 3,E C# 4,B G# 5,F# D# 6";
    const flats = "F D -1,Bb G -2,Eb C -3,Ab F -4,Db Bb -5,Gb Eb -6";
    for (const line of [sharps, flats].join().split(",")) {
      const [major = "", minor = "", fifths] = line.split(" ");
      expect(fifthsOf(key(major)), major).toBe(Number(fifths));
      expect(fifthsOf(key(`${minor} minor`)), minor).toBe(Number(fifths));
      const [above, below] = [key(major), key(`${minor} minor`)].map(({ tonic }) => classOf(tonic));
      expect(((above ?? 0) - (below ?? 0) + 12) % 12).toBe(3);
    }
  });

  test("secondary dominants are V7 of the chord they lead to (common practice)", () => {
    const names = ["D7", "A7", "G7", "C7"].map((text) => romanNumeral(chord(text), key("F")));
    expect(names).toEqual(["V7/ii", "V7/vi", "V7/V", "V7"]);
  });
});

/**
 * Each way to lay four pitch classes around middle C, so that the least motion can be found by
 * trying.
 */
function placings(chordClasses: readonly number[]): readonly MidiNote[][] {
  return chordClasses.reduce<MidiNote[][]>(
    (begun, value) =>
      begun.flatMap((pitches) => [48, 60, 72].map((low) => [...pitches, midiNote(low + value)])),
    [[]],
  );
}

function motionFromC7(pitches: readonly MidiNote[]): number {
  return threadsBetween([60, 64, 67, 70].map(midiNote), pitches).total;
}
