/** A copy that holds what reading would leave out is refused, and says where. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type BoardCopy, copyOf, decodeCopy, fillDocuments } from "./copy.ts";
import { demoSolution } from "./demo.ts";
import { emptyDocuments } from "./documents.ts";
import { chartLayout, laneLayout } from "./layout.ts";
import { fillWays } from "./playing.ts";

const demo = demoSolution();
const bar = "verse-1";
const note = { start: 0, length: 24, string: 2, fret: 1, way: "pluck", bend: 0, letRing: false };
const fill = { bar, start: 0, length: 48, kind: "fill", together: false };
const sung = { start: 0, length: 24, pitch: 60 };

function fault(more: object): string {
  const copy = decodeCopy(JSON.parse(JSON.stringify({ ...demo, ...more })));
  return copy.ok ? "fine" : copy.error.path;
}

function withNotes(...notes: readonly object[]): string {
  const upper = { ...demo.lanes.upper, fills: { f: { ...fill, notes } } };
  return fault({ lanes: { ...demo.lanes, upper } });
}

function withMelody(...melody: readonly object[]): string {
  return fault({ phrases: { p: { bar, start: 0, length: 48, melody } } });
}

describe("notes of a fill", () => {
  test("in any order, over each other on strings of their own, are fine", () => {
    expect(withNotes({ ...note, start: 24 }, note, { ...note, string: 3 })).toBe("fine");
  });

  test.each<[string, object]>([
    ["beyond its end", { ...note, start: 40 }],
    ["on a string that still sounds", { ...note, start: 12 }],
    ["twice", note],
    ["bent by nothing", { ...note, start: 24, way: "bend" }],
    ["plucked, with a bend", { ...note, start: 24, bend: 2 }],
  ])("%s", (_, wrong) => {
    expect(withNotes(note, wrong)).toBe("lanes.upper.fills.f.notes[1]");
  });
});

test("notes of a melody that lie outside it, or sound together", () => {
  expect(withMelody({ ...sung, start: 24 }, sung)).toBe("fine");
  expect(withMelody(sung, { ...sung, start: 12 })).toBe("phrases.p.melody[1]");
  expect(withMelody(sung, { ...sung, start: 30 })).toBe("phrases.p.melody[1]");
});

test("a range that is none", () => {
  expect(fault({ voices: { ...demo.voices, v: { name: "V", low: 60, high: 60 } } })).toBe("fine");
  expect(fault({ voices: { v: { name: "V", low: 70, high: 60 } }, singers: {} })).toBe("voices.v");
  expect(fault({ voices: { v: { name: "V", low: 70 } }, singers: {} })).toBe("voices.v");
});

test("a silence or proposal of no bars, or of no changes", () => {
  const silence = { id: "s", rule: "R01", bars: [], reason: "" };
  expect(fault({ silences: [silence] })).toBe("silences[0].bars");
  const proposal = { lane: "upper", words: "", bars: [bar], edits: [{ kind: "capo", capo: 1 }] };
  expect(fault({ proposals: { p: proposal } })).toBe("fine");
  expect(fault({ proposals: { p: { ...proposal, bars: [] } } })).toBe("proposals.p.bars");
  expect(fault({ proposals: { p: { ...proposal, edits: [] } } })).toBe("proposals.p.edits");
});

test("sections that borrow in a circle", () => {
  const borrowing = (id: string, borrows: string) => ({ id, name: id, borrows, bars: [] });
  const sections = (...more: readonly object[]) => fault({ sections: [...demo.sections, ...more] });
  expect(sections(borrowing("a", "b"), borrowing("b", "verse"))).toBe("fine");
  const place = `sections[${demo.sections.length}].borrows`;
  expect(sections(borrowing("a", "a"))).toBe(place);
  expect(sections(borrowing("a", "b"), borrowing("b", "a"))).toBe(place);
});

test("a copy of whatever documents hold is accepted", () => {
  const [small, some] = [fc.integer({ min: -1, max: 60 }), (max: number) => ({ maxLength: max })];
  const notes = fc.array(
    fc.record(
      {
        ...{ start: small, length: small, string: fc.integer({ min: 0, max: 7 }), fret: small },
        ...{ way: fc.constantFrom(...fillWays), bend: fc.constantFrom(0, 0.5, 1, 9), pitch: small },
        letRing: fc.boolean(),
      },
      { noNullPrototype: true },
    ),
    some(5),
  );
  const voice = fc.record(
    { name: fc.constant("V"), low: small, high: small },
    { noNullPrototype: true },
  );
  const bars = fc.array(fc.constantFrom(bar, "no id!"), some(2));
  const borrows = fc.array(fc.tuple(fc.nat(5), fc.nat(5)), some(6));
  fc.assert(
    fc.property(notes, voice, bars, borrows, (made, voice, bars, borrowed) => {
      const docs = emptyDocuments();
      fillDocuments(docs, demo);
      const chart = chartLayout(docs.board);
      const ids = demo.sections.map(({ id }) => id);
      laneLayout(docs["lane-upper"]).fills.set("f", { ...fill, notes: made });
      chart.phrases.set("p", { ...fill, melody: made });
      chart.voices.set("v", voice);
      chart.silences.set("s", { rule: "R01", bars, reason: "" });
      chart.proposals.set("q", { lane: "upper", words: "", bars, edits: [] });
      for (const [from, to] of borrowed) chart.borrows.set(ids[from] ?? "", ids[to]);
      const copy: BoardCopy = copyOf(docs);
      expect(decodeCopy(JSON.parse(JSON.stringify(copy)))).toEqual({ ok: true, value: copy });
    }),
    { numRuns: 100 },
  );
});
