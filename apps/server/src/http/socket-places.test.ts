/** W3: sockets are counted for each board and for the server, messages for each board. */
import {
  messagesPerBoardBurst,
  messagesPerBoardPerSecond,
  socketsPerBoardMax,
  socketsPerServerMax,
} from "@halflap/wire/limits";
import { expect, test } from "vitest";
import { makeBoardId } from "../store/secret.ts";
import { SocketPlaces } from "./socket-places.ts";

const many = <T>(count: number, make: () => T): readonly T[] => Array.from({ length: count }, make);

test("a board has so many places and no more, and one that is left is free again", () => {
  const places = new SocketPlaces(() => 0);
  const [board, other] = [makeBoardId(), makeBoardId()];
  const taken = many(socketsPerBoardMax, () => places.take(board));
  expect(taken.every((place) => place !== undefined)).toBe(true);
  expect(places.take(board)).toBeUndefined();
  expect(places.take(other)).toBeDefined();
  taken[0]?.leave();
  expect(places.take(board)).toBeDefined();
  expect(places.take(board)).toBeUndefined();
});

test("the server has so many places over all boards", () => {
  const places = new SocketPlaces(() => 0);
  const taken = many(socketsPerServerMax, () => places.take(makeBoardId()));
  expect(taken.every((place) => place !== undefined)).toBe(true);
  expect(places.take(makeBoardId())).toBeUndefined();
  taken[0]?.leave();
  expect(places.take(makeBoardId())).toBeDefined();
});

test("the sockets of a board share a rate of messages, and another board has its own", () => {
  let now = 0;
  const places = new SocketPlaces(() => now);
  const board = makeBoardId();
  const mine = many(10, () => places.take(board));
  const other = places.take(makeBoardId());
  const spent = many(messagesPerBoardBurst, () => 0).map((_, i) => mine[i % 10]?.mayReceive());
  expect(spent.every((may) => may === true)).toBe(true);
  expect(mine.map((place) => place?.mayReceive())).toEqual(many(10, () => false));
  expect(other?.mayReceive()).toBe(true);
  now += 1000;
  const earned = many(messagesPerBoardPerSecond + 1, () => mine[0]?.mayReceive());
  expect(earned.filter((may) => may === true)).toHaveLength(messagesPerBoardPerSecond);
});
