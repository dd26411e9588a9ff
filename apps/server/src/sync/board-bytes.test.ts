/** A board's documents are bounded together, whichever of them are open. */
import { boardBytesMax } from "@halflap/wire/limits";
import { expect, test } from "vitest";
import { makeBoardId } from "../store/secret.ts";
import { BoardBytes } from "./board-bytes.ts";

const board = makeBoardId();
const [chart, upper] = [
  { board, document: "board" },
  { board, document: "lane-upper" },
] as const;

test("documents that are open count as they stand, others as they were found or left", async () => {
  const bytes = new BoardBytes();
  let [chartSize, upperSize] = [100, 50];
  const stored = async () => new Map([["lane-upper", 70] as const, ["talk", 30] as const]);
  await bytes.open(chart, () => chartSize, stored);
  const room = (most: number) =>
    [bytes.hasRoomFor(board, most), bytes.hasRoomFor(board, most + 1)].join();
  expect(room(boardBytesMax - 200)).toBe("true,false");
  await bytes.open(upper, () => upperSize, stored);
  expect(room(boardBytesMax - 180)).toBe("true,false");
  [chartSize, upperSize] = [1000, 500];
  expect(room(boardBytesMax - 1530)).toBe("true,false");
  bytes.close(upper);
  upperSize = 0;
  expect(room(boardBytesMax - 1530)).toBe("true,false");
});

test("a board is asked for once, and forgotten with its last open document", async () => {
  const bytes = new BoardBytes();
  let asked = 0;
  const stored = async () => {
    asked += 1;
    return new Map([["talk", boardBytesMax] as const]);
  };
  await bytes.open(chart, () => 0, stored);
  await bytes.open(upper, () => 0, stored);
  expect([asked, bytes.hasRoomFor(board, 1)]).toEqual([1, false]);
  bytes.close(chart);
  bytes.close(upper);
  expect(bytes.hasRoomFor(board, 1)).toBe(true);
  await bytes.open(chart, () => 0, stored);
  expect(asked).toBe(2);
});
