/** Two players who write on the form at once both find what they wrote in it. */
import type { FormEntryId, SectionId } from "@halflap/board/board";
import { formEntriesMax } from "@halflap/board/limits";
import { expect, test } from "vitest";
import { mergedForm, type WrittenEntry } from "./merged-form.ts";

/** `a b` are entries that were known, `+c` is one that is new. */
const form = (text: string): readonly WrittenEntry[] =>
  text.split(" ").flatMap((word) => {
    if (word === "") return [];
    const section = word.replace("+", "") as SectionId;
    return word.startsWith("+") ? { section, times: 1 } : { ...known(section), section };
  });
const known = (id: string) => ({ id: id as FormEntryId, section: id as SectionId, times: 1 });
const knownForm = (text: string) => text.split(" ").filter(Boolean).map(known);

test.each([
  ["nothing changed meanwhile", "a b", "b +c a", "a b", "b +c a"],
  ["both added at the end", "a b", "a b +c", "a b x", "a b x c"],
  ["the other added in between", "a b", "+c b a", "a x y b", "c b a x y"],
  ["the other took one away", "a b", "a b +c", "b", "b c"],
  ["I took away what theirs stands behind", "a b c", "a c", "a b x c", "a x c"],
  ["I took everything away", "a b", "", "a x b y", "x y"],
  ["the other put them in another order, I only added", "a b", "a b +c", "b x a", "b x a c"],
  ["the other put them in another order, and I did", "a b c", "c a b", "b a c", "c a b"],
  ["the other put in another order what I took from", "a b c", "a c +d", "c b a", "c a d"],
  ["the other wrote the first form", "~a ~b", "~a ~b +c", "x y z", "x y z c"],
])("%s", (_, opened, written, now, merged) => {
  const sections = mergedForm(knownForm(opened), form(written), knownForm(now));
  const expected = merged.replaceAll("+", "").split(" ");
  expect(sections.map(({ section }) => String(section))).toEqual(expected);
});

test("times are those that I wrote, and the other's where I left them", () => {
  const [a, b] = [known("a"), known("b")];
  const written = [{ ...a, times: 3 }, b];
  const now = [
    { ...a, times: 2 },
    { ...b, times: 4 },
  ];
  const merged = mergedForm([a, b], written, now);
  expect(merged.map(({ times }) => times)).toEqual([3, 4]);
});

test("a form that both filled up is as long as a form may be", () => {
  const full = Array.from({ length: formEntriesMax }, (_, index) => known(`e${index}`));
  expect(mergedForm(full.slice(1), [...full.slice(1), ...form("+c")], full)).toHaveLength(
    formEntriesMax,
  );
});
