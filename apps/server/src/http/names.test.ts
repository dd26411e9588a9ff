/** One rule for names: what is taken fits wherever it is stored, and shows. */
import { memberName } from "@halflap/board/talk";
import { expect, test } from "vitest";
import { nameIn } from "./names.ts";

const smile = "\u{1f600}";

test.each([
  ["Ada", "Ada"],
  ["  Ada \n", "Ada"],
  ["A\u030asa", "\u00c5sa"],
  ["x".repeat(40), "x".repeat(40)],
  [smile.repeat(30), smile.repeat(30)],
  ["Ann\u200b", "Ann"],
  ["\ufeff\u2060 Ann\u00ad\u061c", "Ann"],
  ["A\u200dn\ufe0fn\u3164\u{e0041}", "Ann"],
  ["e\u200b\u0301", "\u00e9"],
])("%j is the name %j", (typed, name) => {
  expect(nameIn({ name: typed })).toBe(name);
  expect(memberName(name)).toBe(name);
});

test.each([
  ["a family", "\u{1f468}\u200d\u{1f469}\u{1f3fd}\u200d\u{1f467}"],
  ["a heart in red", "Ada \u2764\ufe0f"],
  ["a detective", "\u{1f575}\u{1f3fd}\u200d\u2642\ufe0f"],
  ["a key", "1\ufe0f\u20e3"],
  ["the flag of a region", "\u{1f3f4}\u{e0067}\u{e0062}\u{e0073}\u{e0063}\u{e0074}\u{e007f}"],
  ["a Persian name of two parts", "\u0645\u06cc\u200c\u0631\u0648\u062f"],
  ["a Sinhala name", "\u0dc1\u0dca\u200d\u0dbb\u0dd3"],
  ["a Japanese name", "\u845b\u{e0100}\u57ce"],
])("%s keeps what it is seen by", (_, name) => {
  expect(nameIn({ name })).toBe(name);
});

test.each([
  ["nothing", ""],
  ["a space of no width", "\u200b"],
  ["joiners, marks and fillers alone", "\u200d\u200e\ufe0f\u2060\u3164\u115f\u{e0061}"],
  ["blanks for fingertips", "\u2800 \u2800"],
  ["spaces", " \u3000"],
  ["41 characters", "x".repeat(41)],
  ["31 emoji, which talk has no room for", smile.repeat(31)],
  ["40 emoji", smile.repeat(40)],
  ["what is short as it comes and long as it is stored", "\u{1d160}".repeat(13)],
  ["a line break", "a\nb"],
  ["half a character", "a\ud83d"],
  ["a mark that turns the line", "a\u202eb"],
])("%s is no name", (_, name) => {
  expect(() => nameIn({ name })).toThrow(/^A name /);
});
