/** Who sings which round stays with the section when its form is first written. */
import { expect, test } from "vitest";
import * as Y from "yjs";
import { copyOf, fillDocuments } from "../copy.ts";
import { demoSolution } from "../demo.ts";
import { emptyDocuments, ownEdit } from "../documents.ts";
import { derivedEntry, formEntryId, sectionId, voiceId } from "../ids.ts";
import { makeReader } from "../read.ts";
import { setForm } from "./form-change.ts";
import { addVoice, setSingers } from "./singing.ts";

const verse = sectionId("verse");
const tag = sectionId("tag");
const rune = voiceId("rune");

/** A board without a form, on which Rune sings the verse. */
function sung() {
  const docs = emptyDocuments();
  fillDocuments(docs, { ...demoSolution(), form: [], singers: {} });
  addVoice(docs.board, { id: rune, name: "Rune", lane: undefined, type: "alto", range: undefined });
  setSingers(docs.board, { entry: derivedEntry(verse), singers: [rune] });
  return docs;
}

function numbered(): () => string {
  let count = 0;
  return () => {
    count += 1;
    return `n${count}`;
  };
}

const form = [
  { section: tag, times: 1 },
  { section: verse, times: 2 },
  { section: verse, times: 1 },
];

test("E3 the first form takes over who sings a section, for its first entry", () => {
  const docs = sung();
  const read = makeReader(docs);
  expect(read().form.map(({ id, singers }) => [id, singers])).toContainEqual(["~verse", [rune]]);
  setForm(docs.board, { form, makeId: numbered() });
  expect(read().form.map(({ singers }) => singers)).toEqual([[], [rune], []]);
  expect(copyOf(docs).singers).toEqual({ "verse-1": [rune] });
});

test("E3 undo of the first form gives the singers back", () => {
  const docs = sung();
  const before = copyOf(docs);
  const undo = new Y.UndoManager(docs.board, { trackedOrigins: new Set([ownEdit]) });
  setForm(docs.board, { form, makeId: numbered() });
  undo.undo();
  expect(copyOf(docs)).toEqual(before);
});

test("E3 a form that changes later leaves singers where they are", () => {
  const docs = sung();
  const makeId = numbered();
  setForm(docs.board, { form: [{ section: tag, times: 1 }], makeId });
  expect(copyOf(docs).singers).toEqual({ "~verse": [rune] });
  setForm(docs.board, { form, makeId });
  expect(makeReader(docs)().form.flatMap(({ singers }) => singers)).toEqual([]);
});

test("B30 who was said to sing while another wrote the first form sings its entry", () => {
  const docs = emptyDocuments();
  fillDocuments(docs, { ...demoSolution(), form: [], singers: {} });
  const voice = { name: "Rune", lane: undefined, type: undefined, range: undefined };
  addVoice(docs.board, { ...voice, id: rune });
  const others = emptyDocuments();
  Y.applyUpdate(others.board, Y.encodeStateAsUpdate(docs.board));
  setForm(others.board, { form, makeId: numbered() });
  setSingers(docs.board, { entry: derivedEntry(verse), singers: [rune] });
  Y.applyUpdate(docs.board, Y.encodeStateAsUpdate(others.board));
  const singers = () => makeReader(docs)().form.map((entry) => entry.singers);
  expect(singers()).toEqual([[], [rune], []]);
  expect(copyOf(docs).singers).toEqual({ "verse-1": [rune] });
  setSingers(docs.board, { entry: formEntryId("verse-1"), singers: [] });
  expect(singers()).toEqual([[], [], []]);
  setForm(docs.board, { form: [], makeId: numbered() });
  expect(singers().flat()).toEqual([]);
});
