/** A board as large and busy as boards get fits through every door between page and server. */

import { fillDocuments } from "@halflap/board/copy";
import { documentNames, emptyDocuments } from "@halflap/board/documents";
import { addProposal } from "@halflap/board/edits/proposals";
import { barId, proposalId, slotId } from "@halflap/board/ids";
import { proposalEditsMax } from "@halflap/board/limits";
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

test("a whole part offered, under the longest ids there are, is one edit that may be made", () => {
  const { board: doc } = emptyDocuments();
  // The longest: in a section that borrows.
  const long = (i: number) => `${"s".repeat(64)}~${String(i).padStart(64, "x")}`;
  addProposal(doc, {
    ...{ id: proposalId("p".repeat(64)), lane: "lower", from: undefined, words: "w".repeat(300) },
    bars: Array.from({ length: 512 }, (_, i) => barId(long(i))),
    edits: Array.from({ length: proposalEditsMax }, (_, i) => ({
      ...{ kind: "grip", slot: slotId(long(i)), grip: "24-24-24-24-24-24" },
    })),
  });
  const update = Y.encodeStateAsUpdate(doc);
  expect(update.length).toBeLessThan(updateBytesMax);
  expect(update.length * 64).toBeLessThan(documentBytesMax);
});
