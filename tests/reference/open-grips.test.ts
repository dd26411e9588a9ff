/**
 * The neck against an open collection of grips: @tombatossals/chords-db 0.5.1, MIT, 2,069
 * positions for guitar. Every position is found, or is shown to be no grip of its chord.
 */
import { readFileSync } from "node:fs";
import type { SoundingChord } from "@halflap/theory/chord";
import { usualHand } from "@halflap/theory/fingers";
import { decodeGrip, type Grip, printGrip } from "@halflap/theory/grip";
import { fullWishes, gripsOf, reasonsAgainst, type Wishes } from "@halflap/theory/neck";
import { parseChord } from "@halflap/theory/parse-chord";
import { defaultSetup, standardTuning } from "@halflap/theory/tuning";
import { fret } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { root } from "../support/sources.ts";
import { wrongRows } from "./open-grips-wrong.ts";

type Row = {
  readonly key: string;
  readonly suffix: string;
  readonly grip: Grip;
  readonly midi: readonly number[];
};
type Filed = {
  readonly chords: Readonly<
    Record<string, readonly { key: string; suffix: string; positions: readonly Position[] }[]>
  >;
};
type Position = {
  readonly frets: readonly number[];
  readonly baseFret: number;
  readonly midi: readonly number[];
};

/** Frets are counted from the position's first fret; -1 is silent, 0 open. */
function rowsOf({ chords }: Filed): readonly Row[] {
  return Object.values(chords).flatMap((filed) =>
    filed.flatMap(({ key, suffix, positions }) =>
      positions.map(({ frets, baseFret, midi }) => {
        const text = frets.map((at) => (at < 0 ? "x" : at === 0 ? at : at + baseFret - 1));
        const grip = decodeGrip(text.join("-"));
        if (grip === undefined) throw new Error(`no grip: ${text.join("-")}`);
        return { key, suffix, grip, midi };
      }),
    ),
  );
}

const file = `${root}node_modules/@tombatossals/chords-db/lib/guitar.json`;
const rows = rowsOf(JSON.parse(readFileSync(file, "utf8")));

const plain: Readonly<Record<string, string>> = { major: "", minor: "m", "7sg": "7/G" };

/** What the collection means by some suffixes, where we mean something else. */
const theirs: Readonly<Record<string, { readonly as: string; readonly why: string }>> = {
  alt: { as: "(b5)", why: "its alt is a major triad with a flat fifth, without a seventh" },
  "9#11": { as: "7#11", why: "its 9#11 may leave out the ninth" },
  "13": { as: "13(11)", why: "its 13 may hold the eleventh, as MusicXML's dominant-13th does" },
  maj13: { as: "maj13(11)", why: "so may its maj13" },
};

function chord(text: string): SoundingChord {
  const read = parseChord(text);
  if (!read.ok || read.value.kind !== "chord") throw new Error(`no chord: ${text}`);
  return read.value;
}

/** Anything a hand can hold, in the symbol's own tones. */
const anything: Wishes = {
  ...fullWishes(false),
  sounding: { min: 2, max: 6 },
  openReach: undefined,
  spanMax: usualHand.spanMax,
};
/** The root may be left to the bass, and a string inside a barre be damped by another finger. */
const generous: Wishes = { ...anything, rootless: true, hand: { ...usualHand, barreMutes: true } };

const isFound = ({ key, grip }: Row, suffix: string, wishes: Wishes) =>
  reasonsAgainst(grip, chord(key + suffix), defaultSetup, wishes).length === 0;
const symbolOf = ({ key, suffix }: Row) => key + (suffix === "major" ? "" : suffix);
const suffixOf = ({ suffix }: Row) => plain[suffix] ?? suffix;
const share = (found: readonly Row[]) =>
  `${found.length} of ${rows.length}, ${((100 * found.length) / rows.length).toFixed(2)} %`;

const literally = rows.filter((row) => isFound(row, suffixOf(row), anything));
const asSet = rows.filter((row) => isFound(row, suffixOf(row), generous));
const byTheirs = rows.filter((row) => {
  const meant = theirs[row.suffix];
  return !asSet.includes(row) && meant !== undefined && isFound(row, meant.as, generous);
});
const missing = rows.filter((row) => !asSet.includes(row) && !byTheirs.includes(row));

describe("every position of the collection is found or explained", () => {
  test("how many are found as they are filed", () => {
    expect(share(literally)).toBe("1907 of 2069, 92.17 %");
  });

  test("how many with the root left to the bass and strings damped inside a barre", () => {
    expect(share(asSet)).toBe("1926 of 2069, 93.09 %");
  });

  test.each([
    ["alt", 47],
    ["9#11", 25],
    ["13", 21],
    ["maj13", 19],
  ] as const)("by what the collection means by %s, %i more", (suffix, count) => {
    expect(byTheirs.filter((row) => row.suffix === suffix)).toHaveLength(count);
  });

  test("in all", () => {
    expect(share([...asSet, ...byTheirs])).toBe("2038 of 2069, 98.50 %");
  });

  test("the rest are exactly the rows listed as wrong", () => {
    const left = missing.map((row) => `${symbolOf(row)} ${printGrip(row.grip)}`);
    expect(left).toEqual(wrongRows.map(({ symbol, grip }) => `${symbol} ${grip}`));
  });

  test("what has no reason against it is what the search finds", () => {
    const symbols = new Set(asSet.map((row) => row.key + suffixOf(row)));
    const highest = Math.max(...rows.flatMap(({ grip }) => grip.frets.map((at) => at ?? 0)));
    const wishes = { ...generous, highestFret: fret(highest) };
    for (const symbol of symbols) {
      const found = new Set(gripsOf(chord(symbol), defaultSetup, wishes).map(printGrip));
      for (const row of asSet.filter((each) => each.key + suffixOf(each) === symbol)) {
        expect(found, symbol).toContain(printGrip(row.grip));
      }
    }
  });

  test("frets mean the same pitches there and here", () => {
    for (const { grip, midi } of rows) {
      const here = grip.frets.flatMap((fret, index) =>
        fret === undefined ? [] : [(standardTuning[index] ?? 0) + fret],
      );
      expect(here, printGrip(grip)).toEqual(midi);
    }
  });
});

/**
 * Semitones above the root, written down for this test: the chord kinds of MusicXML 4.0. Without
 * a published kind: add9, m6/9 and the major triad with a flat fifth (common practice).
 */
const steps: Readonly<Record<string, readonly number[]>> = {
  "9": [0, 4, 7, 10, 2],
  aug: [0, 4, 8],
  "7b5": [0, 4, 6, 10],
  "11": [0, 4, 7, 10, 2, 5],
  "9#11": [0, 4, 7, 10, 2, 6],
  "7#9": [0, 4, 7, 10, 3],
  maj9: [0, 4, 7, 11, 2],
  mmaj7: [0, 3, 7, 11],
  mmaj11: [0, 3, 7, 11, 2, 5],
  maj7b5: [0, 4, 6, 11],
  m69: [0, 3, 7, 9, 2],
  madd9: [0, 3, 7, 2],
  "/A": [0, 4, 7],
  alt: [0, 4, 6],
  m11: [0, 3, 7, 10, 2, 5],
  add9: [0, 4, 7, 2],
  dim: [0, 3, 6],
  "m/G#": [0, 3, 7, 11],
  "6": [0, 4, 7, 9],
};
const naturals: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
const classOf = (name: string) =>
  (naturals[name.charAt(0)] ?? Number.NaN) + (name.endsWith("#") ? 1 : name.endsWith("b") ? -1 : 0);
const classesOf = (names: string) =>
  names
    .split(" ")
    .filter(Boolean)
    .map(classOf)
    .sort((one, other) => one - other);

describe("a row listed as wrong is shown to be wrong", () => {
  test.each(wrongRows)("$symbol $grip: $reason", ({ symbol, grip, foreign, lacks, reason }) => {
    const row = rows.find((each) => symbolOf(each) === symbol && printGrip(each.grip) === grip);
    const above = steps[row?.suffix ?? ""] ?? [];
    const asked = new Set(above.map((step) => (classOf(row?.key ?? "") + step) % 12));
    const heard = new Set(row?.midi.map((note) => note % 12));
    const alien = [...heard].filter((each) => !asked.has(each)).sort((one, other) => one - other);
    expect(alien).toEqual(classesOf(foreign));
    for (const each of classesOf(lacks)) {
      expect(asked).toContain(each);
      expect(heard).not.toContain(each);
    }
    expect(alien.length + classesOf(lacks).length).toBeGreaterThan(0);
    expect(reason).not.toBe("");
  });
});
