/**
 * The list of boards this browser knows: newest first, and robust against what it finds.
 *
 * @vitest-environment jsdom
 */
import { memberId } from "@halflap/board/talk";
import { assert } from "@halflap/theory/units";
import { beforeEach, expect, test } from "vitest";
import { boardId } from "./board-id.ts";
import {
  forgetBoard,
  type KnownBoard,
  knowBoard,
  knownBoard,
  knownBoards,
} from "./known-boards.ts";

function board(text: string): KnownBoard {
  const id = boardId(text);
  assert(id !== undefined, "a board id");
  const me = { id: memberId("mara"), name: "Mara", role: "player" } as const;
  return { id, title: text, me, editedAt: "2031-03-08T20:00:00Z", epoch: 1 };
}

beforeEach(() => localStorage.clear());

test("the board opened last stands first, and only once", () => {
  for (const text of ["a", "b", "a"]) knowBoard(board(text));
  expect(knownBoards().map(({ title }) => title)).toEqual(["a", "b"]);
  forgetBoard(board("a").id);
  expect([knownBoard(board("a").id), knownBoard(board("b").id)]).toEqual([undefined, board("b")]);
});

test.each(["{", "null", '{"a":1}', "[1, null, {}]", '[{"id":"a","title":3}]'])(
  "%s in the browser's storage is no list of boards",
  (text) => {
    localStorage.setItem("halflap:boards", text);
    expect(knownBoards()).toEqual([]);
    knowBoard(board("a"));
    expect(knownBoards()).toEqual([board("a")]);
  },
);

test.each(["", "../x", "a/b", "a b", "x".repeat(65)])("%j is no board's id", (text) => {
  expect(boardId(text)).toBeUndefined();
});
