/** Structural sharing: which parts of a reading stay the same objects. */
import { parseChord } from "@halflap/theory/parse-chord";
import { describe, expect, test } from "vitest";
import type { Board } from "./board.ts";
import { fillDocuments } from "./copy.ts";
import { demoSolution } from "./demo.ts";
import { type BoardDocuments, emptyDocuments } from "./documents.ts";
import { renameSection, setChord } from "./edits/chart.ts";
import { placeGrip } from "./edits/lane.ts";
import { sectionId, slotId } from "./ids.ts";
import { chartLayout } from "./layout.ts";
import { makeReader } from "./read.ts";
import { share } from "./share.ts";

function demo(): BoardDocuments {
  const docs = emptyDocuments();
  fillDocuments(docs, demoSolution());
  return docs;
}

function chordOf(text: string): unknown {
  const chord = parseChord(text);
  return chord.ok ? chord.value : undefined;
}

const section = (board: Board, id: string) => board.sections.find((each) => each.id === id);

test("a value of another kind is taken as it is", () => {
  for (const [last, next] of [
    [undefined, [1]],
    [[1], new Map([[1, 1]])],
    [new Map(), new Set([1])],
    [{ a: 1 }, [1]],
    [[1, 2], [1]],
    [{ a: 1, b: undefined }, { a: 1 }],
  ]) {
    expect(share(last, next)).toEqual(next);
  }
});

test("a map or set in another order is another one", () => {
  const [last, next] = [
    new Map([
      ["a", 1],
      ["b", 2],
    ]),
    new Map([
      ["b", 2],
      ["a", 1],
    ]),
  ];
  expect([...share(last, next).keys()]).toEqual(["b", "a"]);
  expect([...share(new Set([1, 2]), new Set([2, 1]))]).toEqual([2, 1]);
});

describe("structural sharing", () => {
  test("an unchanged board is the same object", () => {
    const read = makeReader(demo());
    expect(read()).toBe(read());
  });

  test("a chord changes its slot, bar and section, and nothing else", () => {
    const docs = demo();
    const read = makeReader(docs);
    const before = read();
    setChord(docs.board, { slot: slotId("chorus-1-1"), chord: "Bb9" });
    const after = read();
    expect(after.sections[2]).not.toBe(before.sections[2]);
    expect(after.sections[2]?.bars[0]).not.toBe(before.sections[2]?.bars[0]);
    expect(after.sections[2]?.bars[1]).toBe(before.sections[2]?.bars[1]);
    for (const i of [0, 1, 3, 4]) expect(after.sections[i]).toBe(before.sections[i]);
    for (const part of ["lanes", "form", "key", "setAside", "members"] as const) {
      expect(after[part]).toBe(before[part]);
    }
  });

  test("a chord after another in its slot is what its text says, and no mixture of both", () => {
    const docs = demo();
    const read = makeReader(docs);
    read();
    for (const text of ["D", "D7", "D", "C", "Am", "G7", "G7b9", "Em7b5", "A13", "A"]) {
      setChord(docs.board, { slot: slotId("chorus-1-1"), chord: text });
      const chord = section(read(), "chorus")?.bars[0]?.slots[0]?.chord;
      expect(chord).toEqual(chordOf(text));
      if (chord?.kind !== "chord") throw new Error(`no chord: ${text}`);
      expect(chord.guideTones).not.toEqual([]);
      for (const tone of [...chord.guideTones, ...chord.omittable]) {
        expect(
          chord.tones.some((each) => each === tone),
          `${tone.degree} of ${text}`,
        ).toBe(true);
      }
    }
  });

  test("a chord read anew that says the same stays the same object", () => {
    const last = chordOf("Gm7");
    expect(share(last, chordOf("Gm7"))).toBe(last);
  });

  test("a grip changes its lane's grips, and nothing else", () => {
    const docs = demo();
    const read = makeReader(docs);
    const before = read();
    const [, grip] = [...before.lanes.upper.grips][3] ?? [];
    if (grip === undefined) throw new Error("the demo has grips");
    placeGrip(docs["lane-upper"], { slot: slotId("verse-1-1"), grip });
    const after = read();
    expect(after.sections).toBe(before.sections);
    expect(after.lanes.lower).toBe(before.lanes.lower);
    expect(after.lanes.upper.marks).toBe(before.lanes.upper.marks);
    expect(after.lanes.upper.grips).not.toBe(before.lanes.upper.grips);
  });

  test("a section moved to the front leaves the slots of all others what they were", () => {
    const docs = demo();
    const read = makeReader(docs);
    const before = read();
    chartLayout(docs.board).sectionOrder.insert(0, ["tag"]);
    renameSection(docs.board, sectionId("tag"), "Tag at last");
    const after = read();
    const slots = (board: Board) => section(board, "verse")?.bars[3]?.slots;
    expect(slots(after)).toBe(slots(before));
    expect(after.sections[0]?.bars[0]?.number).toBe(1);
  });
});
