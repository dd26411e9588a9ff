/**
 * Laws of the board over random boards: the copy loses nothing, and chart text says the chart
 * again.
 */
import type { BarId, Board } from "@halflap/board/board";
import { draftCopy, parseChartText, printChartText } from "@halflap/board/chart-text";
import { copyOf, decodeCopy, fillDocuments } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import { type BoardDocuments, emptyDocuments } from "@halflap/board/documents";
import { isHeld, strumId } from "@halflap/board/ids";
import { parseBarText, printBarText } from "@halflap/board/one-bar";
import { makeReader } from "@halflap/board/read";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fullBoard } from "./support/full-board.ts";
import { randomEdit } from "./support/random-edits.ts";
import { seeded } from "./support/seeded.ts";
import { faultsOf } from "./support/valid-board.ts";

function counter(prefix: string): () => string {
  let count = 0;
  return () => {
    count += 1;
    return `${prefix}${count}`;
  };
}

function randomBoard(seed: number): BoardDocuments {
  const docs = emptyDocuments();
  fillDocuments(docs, demoDraft());
  const [read, chance, makeId] = [makeReader(docs), seeded(seed), counter("n")];
  for (let i = 0; i < 40; i += 1) randomEdit({ docs, board: read(), chance, makeId });
  return docs;
}

/** A board without its ids, and without what chart text does not carry. */
function chartOf(board: Board) {
  const place = new Map(board.sections.map(({ id }, i) => [id, i]));
  const { title, key, tempo, meter, feel, hasBass } = board;
  return {
    ...{ title, key, tempo, meter, feel, hasBass },
    form: board.form.map(({ section, times }) => [place.get(section), times]),
    sections: board.sections.map(({ name, borrows, bars }) => ({
      name,
      borrows: borrows === undefined ? undefined : place.get(borrows),
      bars: bars.map(({ length, slots }) => ({
        length,
        slots: slots.map(({ start, length, text }) => [start, length, text]),
      })),
    })),
  };
}

const seed = fc.integer({ min: 0, max: 1_000_000 });

describe("over random boards", () => {
  test("out and in loses nothing, set aside or not", () => {
    fc.assert(
      fc.property(seed, (number) => {
        const docs = randomBoard(number);
        const copy = decodeCopy(JSON.parse(JSON.stringify(copyOf(docs))));
        if (!copy.ok) throw new Error(`${copy.error.path} ${copy.error.words}`);
        const again = emptyDocuments();
        fillDocuments(again, copy.value);
        expect(copyOf(again)).toEqual(copyOf(docs));
        expect(makeReader(again)()).toEqual(makeReader(docs)());
      }),
      { numRuns: 30 },
    );
  });

  test("a chart printed and read is the same chart", () => {
    fc.assert(
      fc.property(seed, (number) => {
        const board = makeReader(randomBoard(number))();
        if (!board.sections.some(({ bars }) => bars.length > 0)) return;
        const { draft, problems } = parseChartText(printChartText(board));
        expect(problems).toEqual([]);
        if (draft === undefined) throw new Error("a chart without problems");
        const docs = emptyDocuments();
        fillDocuments(docs, draftCopy(draft, counter("d")));
        const again = makeReader(docs)();
        expect(faultsOf(again)).toEqual([]);
        expect(chartOf(again)).toEqual(chartOf(board));
      }),
      { numRuns: 40 },
    );
  });

  test("a bar printed and read has the same slots", () => {
    fc.assert(
      fc.property(seed, (number) => {
        const board = makeReader(randomBoard(number))();
        for (const bar of board.sections.flatMap(({ bars }) => bars)) {
          const read = parseBarText(printBarText(bar, board.meter), bar.length, board.meter);
          const slots = bar.slots.filter(({ id }) => !isHeld(id));
          const wanted = slots.map(({ start, text }) => ({ at: start, chord: text }));
          expect(read).toEqual({ ok: true, value: wanted });
        }
      }),
      { numRuns: 30 },
    );
  });
});

test("no text breaks the reading of charts, and no problem points outside the text", () => {
  const piece = fc.constantFrom(
    ..."| |: :| % . / - F7 Bb/F Cq7 Verse Form: = x2 , 4/4 120 ♭ \n \r\n \t".split(" "),
    " ",
    "\n",
  );
  const text = fc.oneof(
    fc.string({ unit: "binary" }),
    fc.array(piece).map((all) => all.join(" ")),
  );
  fc.assert(
    fc.property(text, (typed) => {
      const { draft, problems } = parseChartText(typed);
      expect(draft === undefined).toBe(problems.length > 0);
      const lines = typed.split(/\r\n|\r|\n/);
      for (const { line, column, words } of problems) {
        expect(lines.length).toBeGreaterThanOrEqual(line);
        expect((lines[line - 1] ?? "").length + 1).toBeGreaterThanOrEqual(column);
        expect(words).not.toBe("");
      }
    }),
    { numRuns: 1000 },
  );
});

test("no value breaks the reading of copies, and what is read can be filled in", () => {
  const copy = fc.constant(JSON.parse(JSON.stringify(demoDraft())));
  const bent = fc
    .tuple(copy, fc.array(fc.nat(40), { maxLength: 6 }), fc.jsonValue())
    .map(([whole, path, value]) => {
      const bending = structuredClone(whole);
      let place: unknown = bending;
      for (const step of path) {
        const names = Object.keys(Object(place));
        const name = names[step % Math.max(names.length, 1)];
        const next: unknown = name === undefined ? undefined : Reflect.get(Object(place), name);
        if (name === undefined || typeof next !== "object" || next === null) break;
        if (step % 3 === 0) Reflect.set(Object(place), name, value);
        place = next;
      }
      return bending;
    });
  fc.assert(
    fc.property(fc.oneof(fc.jsonValue(), bent), (value) => {
      const read = decodeCopy(value);
      if (!read.ok) {
        expect(read.error.words).not.toBe("");
        return;
      }
      const docs = emptyDocuments();
      fillDocuments(docs, read.value);
      expect(faultsOf(makeReader(docs)())).toEqual([]);
    }),
    { numRuns: 500 },
  );
});

test.each(["usual", "dense"] as const)("a full board is full, and all of it stands: %s", (kind) => {
  const docs = emptyDocuments();
  const copy = fullBoard(64, kind);
  expect(decodeCopy(JSON.parse(JSON.stringify(copy)))).toEqual({ ok: true, value: copy });
  fillDocuments(docs, copy);
  const board = makeReader(docs)();
  const bars = board.sections.flatMap((section) => section.bars);
  const slots = bars.flatMap((bar) => bar.slots);
  expect(faultsOf(board)).toEqual([]);
  expect(bars).toHaveLength(64);
  expect(board.form.every(({ singers }) => singers.length === 1)).toBe(true);
  const hanging: (readonly { readonly bar: BarId }[])[] = [board.phrases, board.gapOwners];
  for (const lane of Object.values(board.lanes)) {
    expect(lane.grips.size).toBe(slots.length);
    expect(lane.chosenFor.size).toBe(slots.length);
    expect(lane.strums.has(lane.strumming.lane ?? strumId("none"))).toBe(true);
    expect(lane.fills.size).toBeGreaterThanOrEqual(kind === "dense" ? 16 : 1);
    hanging.push([...lane.fills.values()]);
  }
  const standing = new Set(bars.map(({ id }) => id));
  for (const things of hanging) {
    expect(things.length).toBeGreaterThan(0);
    expect(things.every(({ bar }) => standing.has(bar))).toBe(true);
  }
});
