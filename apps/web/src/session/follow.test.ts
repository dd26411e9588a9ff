/** The live board against the board that was read, and who is told of a change. */
import type { Bar, Board } from "@halflap/board/board";
import { fillDocuments } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import { type BoardDocuments, emptyDocuments } from "@halflap/board/documents";
import * as chart from "@halflap/board/edits/chart";
import * as lane from "@halflap/board/edits/lane";
import { makeReader } from "@halflap/board/read";
import { assert } from "@halflap/theory/units";
import { createMemo, createRoot } from "solid-js";
import { expect, test } from "vitest";
import { makeLiveBoard } from "./follow.ts";

function open(): { docs: BoardDocuments; board: Board; read(): Board; follow(): void } {
  const docs = emptyDocuments();
  fillDocuments(docs, demoDraft());
  const read = makeReader(docs);
  const live = makeLiveBoard(read());
  return { docs, board: live.board, read, follow: () => live.follow(read()) };
}

function bar(board: Board, section: number, index: number): Bar {
  const found = board.sections[section]?.bars[index];
  assert(found !== undefined, "the demo has this bar");
  return found;
}

test("a live board says what was read, before and after any edit", () => {
  const { docs, board, read, follow } = open();
  expect(board).toEqual(read());
  chart.setTitle(docs.board, "Another");
  chart.removeBar(docs.board, bar(board, 1, 2).id);
  follow();
  expect(board).toEqual(read());
  expect(board.title).toBe("Another");
});

test("sections, bars and slots stay the same objects while a chord in them changes", () => {
  const { docs, board, follow } = open();
  const before = bar(board, 1, 0);
  const [slot] = before.slots;
  assert(slot !== undefined, "every bar of the demo has a slot");
  chart.setChord(docs.board, { slot: slot.id, chord: "Am7" });
  follow();
  expect(bar(board, 1, 0)).toBe(before);
  expect(before.slots[0]).toBe(slot);
  expect(slot.text).toBe("Am7");
});

test("a bar that moves takes its object along", () => {
  const { docs, board, follow } = open();
  const first = bar(board, 0, 0);
  const section = board.sections[0];
  assert(section !== undefined, "the demo has sections");
  chart.moveBar(docs.board, { bar: first.id, section: section.id, index: 3 });
  follow();
  expect(bar(board, 0, 3)).toBe(first);
  expect(first.number).toBe(4);
});

test("whoever reads one slot's grip is not told of another's", () => {
  createRoot((dispose) => {
    const { docs, board, follow } = open();
    const [mine, other] = [bar(board, 0, 0).slots[0], bar(board, 0, 1).slots[0]];
    assert(mine !== undefined && other !== undefined, "the demo has these slots");
    let runs = 0;
    const grip = createMemo(() => board.lanes.lower.grips.get(mine.id));
    const drawn = createMemo(() => {
      grip();
      runs += 1;
      return runs;
    });
    lane.clearGrip(docs["lane-lower"], other.id);
    follow();
    expect(board.lanes.lower.grips.has(other.id)).toBe(false);
    expect(drawn()).toBe(1);
    lane.clearGrip(docs["lane-lower"], mine.id);
    follow();
    expect(drawn()).toBe(2);
    dispose();
  });
});
