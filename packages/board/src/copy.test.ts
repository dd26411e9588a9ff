/** The JSON copy: out and in without loss, and clear about what is wrong with one. */
import { describe, expect, test } from "vitest";
import { type BoardCopy, copyOf, decodeCopy, fillDocuments } from "./copy.ts";
import { demoDraft, demoSolution } from "./demo.ts";
import { emptyDocuments } from "./documents.ts";
import { makeReader } from "./read.ts";

/** The demo as JSON, with one place of it changed. */
function broken(path: readonly (string | number)[], value: unknown): unknown {
  const copy: unknown = JSON.parse(JSON.stringify(demoSolution()));
  let place: unknown = copy;
  for (const step of path.slice(0, -1)) place = Reflect.get(Object(place), step);
  const last = path.at(-1) ?? "";
  if (value === undefined) Reflect.deleteProperty(Object(place), last);
  else Reflect.set(Object(place), last, value);
  return copy;
}

function fault(value: unknown): string {
  const copy = decodeCopy(value);
  return copy.ok ? "fine" : `${copy.error.path}: ${copy.error.words}`;
}

test.each([
  ["draft", demoDraft],
  ["solution", demoSolution],
])("the demo's %s comes back as it went in", (_, demo) => {
  const docs = emptyDocuments();
  const decoded = decodeCopy(JSON.parse(JSON.stringify(demo())));
  expect(decoded).toEqual({ ok: true, value: demo() });
  fillDocuments(docs, demo());
  expect(copyOf(docs)).toEqual(demo());
  expect(JSON.stringify(copyOf(docs))).toBe(JSON.stringify(copyOf(docs)));
});

test("what is set aside, at rest or of another length is part of the copy", () => {
  const rest = { id: "rest-1", length: 96, slots: [{ id: "r1", at: 0, chord: "whatever" }] };
  const solution = demoSolution();
  const copy: BoardCopy = {
    ...solution,
    sections: solution.sections.map((section) =>
      section.id === "solo" ? { ...section, bars: [rest] } : section,
    ),
    setAside: {
      bars: [{ id: "old-1", slots: [{ id: "o1", at: 500, chord: "C7" }] }],
      slots: [{ id: "loose", chord: "D7" }],
    },
    silences: [{ id: "s1", rule: "R03", bars: ["solo~verse-1"], reason: "we like it" }],
  };
  const docs = emptyDocuments();
  fillDocuments(docs, copy);
  expect(copyOf(docs)).toEqual(copy);
  expect(makeReader(docs)().setAside.bars).toEqual(["old-1", "rest-1"]);
});

test("ids that name an object's own machinery come back too", () => {
  const docs = emptyDocuments();
  const grips = Object.fromEntries([["__proto__", "x-x-3-2-4-x"]]);
  const copy = demoSolution();
  fillDocuments(docs, { ...copy, lanes: { ...copy.lanes, upper: { ...copy.lanes.upper, grips } } });
  const decoded = decodeCopy(JSON.parse(JSON.stringify(copyOf(docs))));
  expect(decoded.ok && Object.keys(decoded.value.lanes.upper.grips)).toEqual(["__proto__"]);
});

test("patterns of more sections than stand at a time are part of a copy that is accepted", () => {
  const copy = demoSolution();
  const strum = { name: "", step: 24, feel: "board", palmMute: false, steps: "D." } as const;
  const strumSections = Object.fromEntries(Array.from({ length: 65 }, (_, i) => [`s${i}`, "p"]));
  const upper = { ...copy.lanes.upper, strums: { p: strum }, strumSections };
  const docs = emptyDocuments();
  fillDocuments(docs, { ...copy, lanes: { ...copy.lanes, upper } });
  expect(fault(copyOf(docs))).toBe("fine");
  expect(copyOf(docs).lanes.upper.strumSections).toEqual(strumSections);
});

describe("what is wrong is said where it stands", () => {
  test.each<[(string | number)[], unknown, string]>([
    [["title"], 3, "title: must be a text of one line and at most 120 characters"],
    [["title"], "a\nb", "title: must be a text of one line and at most 120 characters"],
    [["title"], undefined, "title: is missing"],
    [["colour"], "red", "colour: is not known here"],
    [["format"], "other", 'format: must be "halflap-board"'],
    [["version"], "1", "version: is missing: this is not a copy of a board"],
    [["version"], 3, "version: 3 was written by a newer Halflap; this one reads 2"],
    [["key", "tonic"], "H", "key.tonic: must be a key's tonic: C, Bb, F#"],
    [["tempo"], null, "tempo: must be a number from 20 to 400"],
    [["meter", "unit"], 3, "meter.unit: must be one of 2, 4, 8, 16"],
    [
      ["sections", 1, "bars", 0, "id"],
      "no id!",
      "sections[1].bars[0].id: must be an id: 1 to 64 letters, digits, _ or -",
    ],
    [["sections", 1, "bars", 0, "id"], "verse-2", 'sections[1].bars[1].id: "verse-2" stands twice'],
    [
      ["sections", 1, "bars", 0, "slots", 0, "at"],
      -1,
      "sections[1].bars[0].slots[0].at: must be a whole number from 0 to 9007199254740991",
    ],
    [["sections", 3, "borrows"], "gone", 'sections[3].borrows: no section has the id "gone"'],
    [["form", 0, "section"], "gone", 'form[0].section: no section has the id "gone"'],
    [["form", 0, "times"], 33, "form[0].times: must be a whole number from 1 to 32"],
    [
      ["lanes", "upper", "grips", "verse-1-1"],
      "x-3",
      "lanes.upper.grips.verse-1-1: must be a grip, low string first: x-x-3-2-4-x",
    ],
    [
      ["lanes", "upper", "grips", "no id!"],
      "x-x-3-2-4-x",
      'lanes.upper.grips: "no id!" is not an id',
    ],
    [
      ["lanes", "lower", "tuning"],
      [40],
      "lanes.lower.tuning: must be six MIDI notes from 24 to 84, low string first",
    ],
    [["lanes", "lower"], undefined, "lanes.lower: is missing"],
    [["sections"], {}, "sections: must be a list"],
  ])("%j", (path, value, words) => expect(fault(broken(path, value))).toBe(words));

  test.each([null, 3, "copy", [], {}])("%j is no copy", (value) => {
    expect(decodeCopy(value).ok).toBe(false);
  });
});

test("documents that already hold something are not filled", () => {
  const docs = emptyDocuments();
  fillDocuments(docs, demoDraft());
  expect(() => fillDocuments(docs, demoDraft())).toThrow(/empty/);
});
