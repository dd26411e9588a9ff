/**
 * Chord tones compared with four published dictionaries (tonal, chord-symbol, teoria: MIT;
 * @musodojo/music-theory-data: CC0) on twelve roots and the spellings that musicians use.
 */
import { parseChord } from "@halflap/theory/parse-chord";
import { classOf, noteName } from "@halflap/theory/pitch";
import { describe, expect, test } from "vitest";
import { type ChordDictionary, chordDictionaries } from "../support/chord-dictionaries.ts";

const roots = "C Db D Eb E F F# G Ab A Bb B".split(" ");

const suffixes = [
  "maj M m min mi - 5 + aug dim ° o sus sus2 sus4 6 M6 maj6 m6 min6 69 6/9 m69 m6/9 add9 add2 add4",
  "add11 madd9 m(add9) mb6 7 maj7 M7 ma7 Maj7 Δ Δ7 ^7 m7 min7 mi7 -7 mM7 m(maj7) m(M7) mMaj7",
  "minmaj7 -Δ7 m7b5 -7b5 ø ø7 dim7 °7 o7 dimM7 7sus4 7sus 7sus2 maj7sus4 +7 aug7 7#5 7b5 7-5 7+5",
  "maj7#5 M7#5 +maj7 augmaj7 maj7b5 m7#5 m#5 9 maj9 M9 Δ9 m9 min9 -9 mM9 m9b5 9sus4 9sus 9b5 9#5",
  "7b9 7#9 7b5b9 7b5#9 7#5b9 7#5#9 7b9#9 maj9#5 maj7b9 maj7#9 m7b9 7(b9) 7(#9) 7(b5) 7(#5) 7b9sus4",
  "7susb9 7-9 7+9 11 maj11 m11 min11 -11 7#11 9#11 maj7#11 M7#11 maj9#11 Δ#11 7b9#11 7#9#11 m9#11",
  "13 maj13 M13 m13 min13 -13 13sus4 13b9 13#9 13#11 13b5 maj13#11 7b13 9b13 7b9b13 7#9b13 7#11b13",
  "7add13 m7add11 m11b5 7alt alt 7no5 7no3 m7b5b9 13b9#11 7(b9,#11) 7(#9,b13)",
].flatMap((line, index) => (index === 0 ? ["", ...line.split(" ")] : line.split(" ")));

type Disagreement = {
  readonly dictionary: string;
  readonly symbols: string;
  readonly right: "ours" | "both";
  readonly why: string;
};

/** Every disagreement, who is right and why. "Both" is where practice differs: SPEC.md T2. */
const disagreements: readonly Disagreement[] = [
  {
    dictionary: "teoria",
    symbols: "maj",
    right: "ours",
    why: "there maj alone adds the seventh; everywhere else it is the triad",
  },
  {
    dictionary: "teoria",
    symbols: "add2 add4",
    right: "ours",
    why: "there the added tone is lost",
  },
  {
    dictionary: "@musodojo/music-theory-data",
    symbols: "Δ",
    right: "both",
    why: "a bare triangle is the triad to some and the major seventh to more",
  },
  {
    dictionary: "tonal",
    symbols: "7b5b9 7b5#9",
    right: "ours",
    why: "there the plain fifth stays beside the flat one, but not in its own 7b5",
  },
  {
    dictionary: "teoria",
    symbols: "7b9#9",
    right: "ours",
    why: "there the two ninths cancel to a plain one",
  },
  {
    dictionary: "chord-symbol",
    symbols: "7-9 7+9",
    right: "ours",
    why: "there the sign behind the seventh makes the triad minor or augmented",
  },
  {
    dictionary: "tonal",
    symbols: "11",
    right: "both",
    why: "MusicXML 4.0 dominant-11th counts the third in; players leave it out, so it may go first",
  },
  {
    dictionary: "chord-symbol",
    symbols: "11 maj11",
    right: "both",
    why: "MusicXML 4.0 dominant-11th counts the third in; players leave it out, so it may go first",
  },
  {
    dictionary: "teoria",
    symbols: "7#11 maj7#11 M7#11",
    right: "ours",
    why: "there a ninth is added that the symbol does not name",
  },
  {
    dictionary: "teoria",
    symbols: "13 maj13 M13 13b9 13#9 13b5",
    right: "both",
    why: "MusicXML 4.0 counts the eleventh in; it rubs against the major third and nobody plays it",
  },
  {
    dictionary: "@musodojo/music-theory-data",
    symbols: "13",
    right: "both",
    why: "MusicXML 4.0 counts the eleventh in; it rubs against the major third and nobody plays it",
  },
  {
    dictionary: "tonal",
    symbols: "m13 -13",
    right: "both",
    why: "MusicXML 4.0 minor-13th counts the eleventh in, and over a minor third it does not rub",
  },
  {
    dictionary: "tonal",
    symbols: "7b13 9b13",
    right: "both",
    why: "there the flat thirteenth replaces the fifth; here the fifth may go first",
  },
  {
    dictionary: "chord-symbol",
    symbols: "7b13 9b13 7b9b13 7#9b13 7#11b13 7(#9,b13)",
    right: "both",
    why: "there the flat thirteenth replaces the fifth; here the fifth may go first",
  },
  {
    dictionary: "teoria",
    symbols: "7b13 9b13 7b9b13 7#9b13 7#11b13 7(#9,b13)",
    right: "both",
    why: "there the ninth and eleventh below a thirteenth are stacked too",
  },
  {
    dictionary: "tonal",
    symbols: "7alt",
    right: "both",
    why: "alt names no fixed set of tones; here both fifths and both ninths",
  },
];

/** What too few dictionaries know, or read as we do, to count as confirmed. */
const unconfirmed =
  "add4 7-5 7+5 7-9 7+9 maj11 M13 7b13 9b13 7b9b13 7#9b13 7#11b13 7alt alt 7no3 7(#9,b13)";

/** A sign behind the number, an older way to write 7b9 and 7#9: the others do not know it. */
const unseconded = ["7-9", "7+9"];

/** Named with a flat sixth there and by its symbol here. */
const spelledOtherwise: ReadonlyMap<string, readonly string[]> = new Map([["tonal", ["m7#5"]]]);

/** Gives black keys their commonest names, so that only its pitches can be compared. */
const respells: ReadonlySet<string> = new Set(["chord-symbol"]);

const ourTones = (symbol: string): readonly string[] => {
  const read = parseChord(symbol);
  if (!read.ok || read.value.kind !== "chord") throw new Error(`no chord: ${symbol}`);
  return read.value.tones.map((tone) => tone.name);
};

const classes = (names: readonly string[]) =>
  [...new Set(names.map((name) => classOf(noteName(name) ?? failed(name))))]
    .sort((one, other) => one - other)
    .join(" ");

function failed(name: string): never {
  throw new Error(`not a note: ${name}`);
}

type Verdict = "agrees" | "differs" | "unknown" | "partly";

/** What a dictionary says of a symbol on all twelve roots; "partly" would be a fault of its own. */
function verdict(dictionary: ChordDictionary, suffix: string): Verdict {
  const verdicts = new Set(
    roots.map((root) => {
      const theirs = dictionary.tones(root, suffix);
      if (theirs === undefined) return "unknown";
      return classes(theirs) === classes(ourTones(root + suffix)) ? "agrees" : "differs";
    }),
  );
  const [only] = verdicts;
  return verdicts.size === 1 && only !== undefined ? only : "partly";
}

const verdicts = new Map(
  chordDictionaries.map((dictionary) => [
    dictionary.name,
    new Map(suffixes.map((suffix) => [suffix, verdict(dictionary, suffix)])),
  ]),
);

const confirmedBy = (suffix: string) =>
  [...verdicts.values()].filter((each) => each.get(suffix) === "agrees").length;

describe("T2 chord tones agree with independent dictionaries", () => {
  test("every disagreement is listed, and nothing is listed that agrees", () => {
    const found = [...verdicts].flatMap(([name, each]) =>
      [...each].flatMap(([suffix, is]) =>
        is === "differs" || is === "partly" ? [`${name}: ${suffix}`] : [],
      ),
    );
    const listed = disagreements.flatMap(({ dictionary, symbols }) =>
      symbols.split(" ").map((symbol) => `${dictionary}: ${symbol}`),
    );
    expect(found.sort()).toEqual(listed.sort());
  });

  test("133 of 149 spellings on twelve roots are confirmed by two or more", () => {
    const confirmed = suffixes.filter((suffix) => confirmedBy(suffix) >= 2);
    expect(new Set(suffixes).size).toBe(suffixes.length);
    expect([confirmed.length, suffixes.length]).toEqual([133, 149]);
    expect(suffixes.filter((suffix) => confirmedBy(suffix) < 2)).toEqual(unconfirmed.split(" "));
  });

  test("where we alone are said to be right, another dictionary says so too", () => {
    const alone = disagreements
      .filter(({ right }) => right === "ours")
      .flatMap(({ symbols }) => symbols.split(" "))
      .filter((symbol) => confirmedBy(symbol) === 0);
    expect(alone).toEqual(unseconded);
  });

  test("the tones are spelled alike too, letter for letter", () => {
    let compared = 0;
    for (const dictionary of chordDictionaries.filter(({ name }) => !respells.has(name))) {
      const agreeing = suffixes.filter(
        (suffix) => verdicts.get(dictionary.name)?.get(suffix) === "agrees",
      );
      const otherwise = agreeing.filter((suffix) =>
        roots.some((root) => {
          compared++;
          const theirs = [...new Set(dictionary.tones(root, suffix))].sort().join(" ");
          return theirs !== [...ourTones(root + suffix)].sort().join(" ");
        }),
      );
      expect(otherwise).toEqual(spelledOtherwise.get(dictionary.name) ?? []);
    }
    expect(compared).toBeGreaterThan(2900);
  });
});
