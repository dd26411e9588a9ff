/**
 * The browser is asked to keep the board once somebody has done something in it, and not before.
 *
 * @vitest-environment jsdom
 */
import { type BoardDocuments, editOwn, emptyDocuments } from "@halflap/board/documents";
import { createRoot, createSignal } from "solid-js";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import * as Y from "yjs";
import { createStayKept } from "./stay-kept.ts";

let asked: number;
let close: () => void;
let setDocs: (docs: BoardDocuments) => void;
let docs: BoardDocuments;

function answering(persist: () => Promise<boolean>): void {
  vi.stubGlobal("navigator", { ...navigator, storage: { persist } });
}

beforeEach(() => {
  asked = 0;
  docs = emptyDocuments();
  answering(async () => {
    asked += 1;
    return true;
  });
  createRoot((dispose) => {
    close = dispose;
    const [documents, set] = createSignal(docs);
    setDocs = set;
    createStayKept(documents);
  });
});

afterEach(() => {
  close();
  vi.unstubAllGlobals();
});

const edit = (doc: Y.Doc) => editOwn(doc, () => doc.getMap("m").set("a", 1));

test("what others do asks for nothing; the first own edit asks, the next ones do not", () => {
  const other = new Y.Doc();
  edit(other);
  Y.applyUpdate(docs.board, Y.encodeStateAsUpdate(other));
  expect(asked).toBe(0);
  edit(docs["lane-upper"]);
  edit(docs["lane-upper"]);
  edit(docs.board);
  expect(asked).toBe(1);
});

test("a document that took another's place is followed too", () => {
  const fresh = { ...docs, board: new Y.Doc() };
  setDocs(fresh);
  edit(docs.board);
  expect(asked).toBe(0);
  edit(fresh.board);
  expect(asked).toBe(1);
});

test("a browser that can't be asked, or refuses, changes nothing", async () => {
  answering(() => Promise.reject(new Error("no")));
  edit(docs.board);
  vi.stubGlobal("navigator", {});
  edit(docs.talk);
  expect(docs.board.getMap("m").get("a")).toBe(1);
});
