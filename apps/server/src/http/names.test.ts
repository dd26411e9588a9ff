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
])("%j is the name %j", (typed, name) => {
  expect(nameIn({ name: typed })).toBe(name);
  expect(memberName(name)).toBe(name);
});

test.each([
  ["nothing", ""],
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
