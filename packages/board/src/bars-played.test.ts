/** However long a form was written, a board plays so many bars and no more. */
import { beforeEach, expect, test } from "vitest";
import * as Y from "yjs";
import type { Board } from "./board.ts";
import { copyOf, decodeCopy, fillDocuments } from "./copy.ts";
import { demoSolution } from "./demo.ts";
import { type BoardDocuments, emptyDocuments } from "./documents.ts";
import { type Played, setForm } from "./edits/form-change.ts";
import { addVoice, setSingers } from "./edits/singing.ts";
import { formEntryId, sectionId, voiceId } from "./ids.ts";
import { formBarsMax } from "./limits.ts";
import { makeReader } from "./read.ts";

const verse = sectionId("verse");
const anna = voiceId("anna");

let docs: BoardDocuments;
let read: () => Board;

beforeEach(() => {
  docs = emptyDocuments();
  fillDocuments(docs, { ...demoSolution(), form: [], singers: {} });
  read = makeReader(docs);
});

const barsOf = (board: Board) => {
  const bars = new Map(board.sections.map((section) => [section.id, section.bars.length]));
  return board.form.reduce((sum, { section, times }) => sum + (bars.get(section) ?? 0) * times, 0);
};
const times = (count: number): Played[] =>
  Array.from({ length: count }, () => ({ section: verse, times: 30 }));
const write = (form: readonly Played[], doc = docs.board, name = "n") => {
  let count = 0;
  const makeId = () => `${name}${++count}`;
  setForm(doc, { form, makeId });
};

test("B32 the entry with which it would be too long is played less often, the rest not", () => {
  write(times(20));
  expect(read().sections.find(({ id }) => id === verse)?.bars).toHaveLength(8);
  expect(read().form.map((entry) => entry.times)).toEqual([...Array(17).fill(30), 2]);
  expect(barsOf(read())).toBe(formBarsMax);
});

test("B32 nobody sings what is not played any more", () => {
  addVoice(docs.board, { id: anna, name: "Anna", lane: undefined, type: "alto", range: undefined });
  write(times(20));
  setSingers(docs.board, { entry: formEntryId("verse-18"), singers: Array(30).fill(anna) });
  expect(read().form.at(-1)?.singers).toEqual([anna, anna]);
});

test("B32 the copy has all of it", () => {
  write(times(20));
  const copy = decodeCopy(JSON.parse(JSON.stringify(copyOf(docs))));
  expect(copy.ok && copy.value.form).toHaveLength(20);
});

test("B32 two who make it too long at once see the same", () => {
  write(times(9));
  const theirs = new Y.Doc();
  Y.applyUpdate(theirs, Y.encodeStateAsUpdate(docs.board));
  const written = read().form.map(({ id, section, times }) => ({ id, section, times }));
  write([...written, ...times(7)], docs.board, "a");
  write([...times(7), ...written], theirs, "b");
  Y.applyUpdate(docs.board, Y.encodeStateAsUpdate(theirs));
  Y.applyUpdate(theirs, Y.encodeStateAsUpdate(docs.board));
  expect(barsOf(read())).toBe(formBarsMax);
  expect(makeReader({ ...docs, board: theirs })().form).toEqual(read().form);
  expect(makeReader(docs)()).toEqual(read());
});
