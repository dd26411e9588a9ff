/** Slots that two players put at the same place: the one that does not stand does not come back. */
import { beforeEach, describe, expect, test } from "vitest";
import type { Board } from "../board.ts";
import { fillDocuments } from "../copy.ts";
import { demoSolution } from "../demo.ts";
import { type BoardDocuments, emptyDocuments } from "../documents.ts";
import { barId, slotId } from "../ids.ts";
import { makeReader } from "../read.ts";
import * as chart from "./chart.ts";
import type { ChordAt } from "./stored.ts";

const first = barId("verse-1");
const [a, b] = [slotId("a"), slotId("b")];

let docs: BoardDocuments;
let read: () => Board;
let count: number;

beforeEach(() => {
  docs = emptyDocuments();
  fillDocuments(docs, demoSolution());
  read = makeReader(docs);
  count = 0;
  const half = { slot: slotId("verse-1-1"), at: 96 };
  chart.splitSlot(docs.board, { ...half, id: a, chord: "Am" });
  chart.splitSlot(docs.board, { ...half, id: b, chord: "G" });
});

const bar = (id: string) => {
  const found = read()
    .sections.flatMap(({ bars }) => bars)
    .find((each) => each.id === id);
  if (found === undefined) throw new Error(`no bar ${id}`);
  return found;
};
const chords = (id: string) => bar(id).slots.map(({ start, text }) => `${text}@${start}`);
const aside = () => read().setAside.slots.map(({ text }) => text);
const makeId = () => {
  count += 1;
  return `new-${count}`;
};
const write = (...slots: readonly ChordAt[]) =>
  chart.writeBar(docs.board, { bar: bar(first), slots, makeId });

describe("E1 a bar that is typed anew reads as it was typed", () => {
  test("where it was one chord", () => {
    expect(chords(first)).toEqual(["F7@0", "Am@96"]);
    write({ at: 0, chord: "F7" });
    expect(chords(first)).toEqual(["F7@0"]);
    expect(aside()).toEqual(["Am", "G"]);
  });

  test("where another chord is typed to the place of both", () => {
    write(
      { at: 0, chord: "F7" },
      { at: 48, chord: "Am" },
      { at: 96, chord: "Dm" },
      { at: 144, chord: "Am7" },
    );
    expect(chords(first)).toEqual(["F7@0", "Am@48", "Dm@96", "Am7@144"]);
    expect(aside()).toEqual(["G"]);
  });

  test("and what lies beyond its end waits on for the meter", () => {
    chart.setBarLength(docs.board, { bar: first, length: 96 });
    write({ at: 0, chord: "F13" });
    chart.setBarLength(docs.board, { bar: first, length: undefined });
    expect(chords(first)).toEqual(["F13@0", "Am@96"]);
  });
});

describe("E2 a slot that is taken away", () => {
  test("does not give way to one that stood behind it", () => {
    chart.removeSlot(docs.board, a);
    expect(chords(first)).toEqual(["F7@0"]);
    expect(aside()).toEqual(["Am", "G"]);
  });

  test("at the start of a bar leaves it to the chord before, not to one that waits", () => {
    chart.setMeter(docs.board, { beats: 2, unit: 4 });
    expect(chords("verse-4")).toEqual(["Gm7@0"]);
    chart.removeSlot(docs.board, slotId("verse-4-1"));
    expect(bar("verse-4").slots[0]?.id).toBe("~verse-4");
    chart.setMeter(docs.board, { beats: 4, unit: 4 });
    expect(chords("verse-4")[1]).toBe("C7@96");
  });
});
