/**
 * Chord tones compared with the chord dictionary of tonal (MIT, tonaljs on npm), on symbols that
 * both read.
 */
import { parseChord } from "@halflap/theory/parse-chord";
import { Chord, ChordType, Note } from "tonal";
import { describe, expect, test } from "vitest";

const roots = "C Db D Eb E F F# G Ab A Bb B".split(" ");

/**
 * Where the two differ, and why; nothing else may differ. T2 of theory's SPEC.md has the
 * decisions.
 */
const reasons: readonly { readonly why: string; readonly symbols: string }[] = [
  {
    why: "there a flat fifth leaves the plain one in",
    symbols: "M6b5 6b5 7b5#9 7#9b5 7b5b9 7b9b5",
  },
  { why: "there the same, and here ♭13 besides", symbols: "7b5b13 9b5b13 7b5b9b13" },
  { why: "here ♭13 or ♭6 leaves the fifth in", symbols: "7b13 9b13 M7b6 ^7b6 mb6M7 mb6b9" },
  { why: "here an eleventh keeps the third, as in MusicXML", symbols: "11 11b9" },
  { why: "here a minor thirteenth has its eleventh, as in MusicXML", symbols: "m13 -13" },
  { why: "here a bare triangle is the major seventh", symbols: "^ ^#5" },
  { why: "here maj alone is the triad", symbols: "maj#4" },
  { why: "here an added tone comes alone", symbols: "M7add13" },
  { why: "there a stack of fourths, here the suspension", symbols: "4" },
  { why: "alt names no fixed set of tones anywhere", symbols: "7alt alt7" },
];
const explained = new Set(reasons.flatMap(({ symbols }) => symbols.split(" ")));

type Comparison = { readonly symbol: string; readonly ours: string; readonly theirs: string };

const suffixes = [...new Set(ChordType.all().flatMap((type) => type.aliases))].filter(
  // An accidental in front would belong to the root: "b9sus" on C is a C♭9sus.
  (alias) => alias !== "" && !/^[b#]/.test(alias),
);

function compared(root: string): readonly Comparison[] {
  return suffixes.flatMap((suffix) => {
    const read = parseChord(root + suffix);
    const theirs = Chord.getChord(suffix, root);
    if (!read.ok || read.value.kind !== "chord" || theirs.empty) return [];
    const ours = read.value.tones.map((tone) => tone.pitchClass as number);
    return [
      {
        symbol: suffix,
        ours: sorted(ours),
        theirs: sorted(theirs.notes.map((name) => Note.chroma(name))),
      },
    ];
  });
}

function sorted(classes: readonly number[]): string {
  return [...new Set(classes)].sort((one, other) => one - other).join(" ");
}

describe("chord tones agree with an independent dictionary", () => {
  test("on every root", () => {
    for (const root of roots) {
      const differing = compared(root).filter(({ ours, theirs }) => ours !== theirs);
      expect(differing.filter(({ symbol }) => !explained.has(symbol))).toEqual([]);
    }
  });

  test("the list of differences holds nothing that agrees", () => {
    const differing = compared("C").filter(({ ours, theirs }) => ours !== theirs);
    expect([...explained].sort()).toEqual(differing.map(({ symbol }) => symbol).sort());
  });

  test("and on enough symbols to mean something", () => {
    expect(suffixes.length).toBeGreaterThan(150);
    expect(compared("C").length / suffixes.length).toBeGreaterThan(0.8);
  });
});
