/** What crosses from node to node: read back as it was, and nothing else read at all. */
import { expect, test } from "vitest";
import { makeBoardId } from "../store/secret.ts";
import { decodeCrossed, encodeCrossed } from "./crossing-port.ts";

const key = { board: makeBoardId(), document: "lane-upper" } as const;
const frame = new Uint8Array([0, 2, 1, 7]);

test("a frame comes out at every node but the one that passed it", () => {
  const bytes = encodeCrossed("here", { key, frame });
  expect(decodeCrossed("there", bytes)).toEqual({ key, frame });
  expect(decodeCrossed("here", bytes)).toBeUndefined();
});

test("bytes that are none are let be, wherever they are cut", () => {
  const bytes = encodeCrossed("here", { key, frame });
  const head = bytes.length - frame.length;
  for (let length = 0; length < head; length += 1) {
    expect(decodeCrossed("there", bytes.slice(0, length))).toBeUndefined();
  }
  const elsewhere = { board: "not a board" as typeof key.board, document: "board" } as const;
  expect(decodeCrossed("there", encodeCrossed("here", { key: elsewhere, frame }))).toBeUndefined();
  const attic = { ...key, document: "attic" as "board" };
  expect(decodeCrossed("there", encodeCrossed("here", { key: attic, frame }))).toBeUndefined();
});
