/** A grip in words: its notes, degrees, strings and inversion. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { describeGrip } from "./describe-grip.ts";
import { decodeGrip, gripOf, parseGrip, printGrip } from "./grip.ts";
import { type Key, parseKey } from "./key.ts";
import { parseChord } from "./parse-chord.ts";
import { defaultSetup } from "./tuning.ts";
import { fret } from "./units.ts";

const keyOf = (text: string): Key => {
  const read = parseKey(text);
  if (!read.ok) throw new Error(`no key: ${text}`);
  return read.value;
};
const described = (text: string, symbol: string | undefined, key = "F") => {
  const grip = decodeGrip(text);
  const chord = symbol === undefined ? undefined : parseChord(symbol);
  if (grip === undefined || chord?.ok === false) throw new Error(`not readable: ${text} ${symbol}`);
  return describeGrip(grip, defaultSetup, chord?.value, keyOf(key));
};

test.each([
  ["x-x-3-2-4-x", "F7", "x-x-3-2-4-x, F A E♭, 1 3 ♭7"],
  ["x-x-3-1-3-x", "Bb7", "x-x-3-1-3-x, F A♭ D, 5 ♭7 3"],
  ["x-x-3-1-3-x", "Bdim7", "x-x-3-1-3-x, F A♭ D, ♭5 𝄫7 ♭3"],
  ["x-x-x-x-8-8", "F7", "x-x-x-x-8-8, G C, 9 5"],
  ["x-x-x-x-9-8", "F7", "x-x-x-x-9-8, A♭ C, ♭3 5"],
  ["x-x-3-2-4-x", undefined, "x-x-3-2-4-x, F A E♭"],
  ["x-x-3-2-4-x", "N.C.", "x-x-3-2-4-x, F A E♭"],
  ["x-x-4-3-5-x", "F#7", "x-x-4-3-5-x, F♯ A♯ E, 1 3 ♭7"],
])("%s as %s: %s", (text, symbol, words) => {
  expect(described(text, symbol).text).toBe(words);
});

// What the symbol writes, whatever the key would call it: common practice, no source.
test.each([
  ["2-x-2-2-1-x", "Am/F#", "F", "2-x-2-2-1-x, F♯ E A C, 13 5 1 ♭3"],
  ["x-4-2-2-1-x", "Am/C#", "C", "x-4-2-2-1-x, C♯ E A C, 3 5 1 ♭3"],
  ["2-x-2-2-1-x", "Am/Gb", "G", "2-x-2-2-1-x, G♭ E A C, 13 5 1 ♭3"],
  ["2-x-0-2-3-x", "D/Gb", "D", "2-x-0-2-3-x, F♯ D A D, 3 1 5 1"],
])("a slash bass is spelled as a tone of the chord, else as written: %s as %s in %s", (...row) => {
  const [text, symbol, key, words] = row;
  expect(described(text, symbol, key).text).toBe(words);
});

test("strings, root and inversion are told", () => {
  expect(described("x-x-3-2-4-x", "F7")).toMatchObject({
    stringSet: "4-3-2",
    inversion: "root position",
    rootless: false,
  });
  expect(described("x-x-1-2-1-x", "F7")).toMatchObject({
    inversion: "third inversion",
    rootless: true,
  });
  expect(described("x-x-x-x-8-8", "F7").inversion).toBeUndefined();
  expect(described("x-x-3-2-4-x", undefined)).toMatchObject({
    inversion: undefined,
    rootless: false,
  });
});

test.each([
  ["x-x-3-2-4-x", "F7", "shell, root position, E form at fret 1"],
  ["x-x-3-3-3-x", "Gm7", "close voicing, rootless, E form at fret 3"],
  ["x-x-x-x-8-8", "F7", "rootless"],
  ["x-x-x-x-8-8", "N.C.", ""],
  ["x-3-2-0-1-0", "C", "root position, open C form"],
])("%s as %s is called: %s", (text, symbol, names) => {
  expect(described(text, symbol).names).toBe(names);
});

test("the text reads back as the grip up to its first comma", () => {
  const frets = fc
    .array(fc.option(fc.integer({ min: 0, max: 22 }).map(fret), { nil: undefined }), {
      minLength: 6,
      maxLength: 6,
    })
    .filter((strings) => strings.some((played) => played !== undefined));
  fc.assert(
    fc.property(frets, fc.constantFrom("F7", "Cmaj9", "Bdim7", undefined), (strings, symbol) => {
      const { text } = described(printGrip(gripOf(strings)), symbol);
      const read = parseGrip(text.split(",")[0] ?? "", defaultSetup);
      return read.ok && printGrip(read.value) === printGrip(gripOf(strings));
    }),
  );
});
