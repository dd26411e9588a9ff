/** A board as large and busy as boards get fits through every door between page and server. */
import { fillDocuments } from "@halflap/board/copy";
import { documentNames, emptyDocuments } from "@halflap/board/documents";
import { copyBytesMax, documentBytesMax, structsMax, updateBytesMax } from "@halflap/wire/limits";
import { expect, test } from "vitest";
import * as Y from "yjs";
import { fullBoard } from "./support/full-board.ts";

// 512 bars is the most that a board holds: it passes with room to grow by half as much again.
test.each([128, 512])("a dense board of %i bars comes in whole, even as one edit", (bars) => {
  const copy = fullBoard(bars, "dense");
  const room = 1.5;
  expect(JSON.stringify(copy).length * room).toBeLessThan(copyBytesMax);
  const docs = emptyDocuments();
  fillDocuments(docs, copy);
  for (const name of documentNames) {
    const size = Y.encodeStateAsUpdate(docs[name]).length;
    const structs = [...docs[name].store.clients.values()].flat().length;
    expect(size * room, name).toBeLessThan(updateBytesMax);
    expect(structs * room, name).toBeLessThan(structsMax);
    expect(size * 16, `${name} with a history`).toBeLessThan(documentBytesMax);
  }
});
