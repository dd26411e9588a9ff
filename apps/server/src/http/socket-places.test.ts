/** W3: sockets are counted for each board and for the server, messages for each board. */
import { EventEmitter } from "node:events";
import {
  messagesLetBeBurst,
  messagesLetBePerSecond,
  messagesPerBoardBurst,
  messagesPerBoardPerSecond,
  socketsPerBoardMax,
  socketsPerServerMax,
} from "@halflap/wire/limits";
import { closeCode } from "@halflap/wire/messages";
import { expect, test } from "vitest";
import { makeBoardId, makeMemberId } from "../store/secret.ts";
import { EarlyBytes } from "../sync/early-frames.ts";
import type { Caller } from "../sync/socket-line.ts";
import { seatInPlace } from "./seat-in-place.ts";
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

test("the sockets of a board share a rate of messages; another board has its own", () => {
  let now = 0;
  const places = new SocketPlaces(() => now);
  const board = makeBoardId();
  const flood = many(10, () => places.take(board));
  const [quiet, other] = [places.take(board), places.take(makeBoardId())];
  const all = messagesPerBoardBurst + flood.length * messagesLetBeBurst;
  const spent = many(all, () => 0).map((_, i) => flood[i % flood.length]?.mayReceive());
  expect(spent.every((may) => may === true)).toBe(true);
  expect(flood.map((place) => place?.mayReceive())).toEqual(many(10, () => false));
  expect(other?.mayReceive()).toBe(true);
  // Whoever says little goes on, whatever the others do.
  expect(many(messagesLetBeBurst, () => quiet?.mayReceive())).not.toContain(false);
  expect(quiet?.mayReceive()).toBe(false);
  now += 1000;
  const count = messagesPerBoardPerSecond + messagesLetBePerSecond;
  const earned = many(count + 5, () => flood[0]?.mayReceive());
  expect(earned.filter((may) => may === true)).toHaveLength(count);
});

/** A socket as far as a place goes: it says what it hears, and remembers how it was closed. */
class TrialSocket extends EventEmitter {
  readonly closes: string[] = [];
  close(code: number, reason: string): void {
    this.closes.push(`${code} ${reason}`);
  }
}

const ignore = () => undefined;

test("a socket beyond its board's rate is closed and heard no more; without a place too", () => {
  const places = new SocketPlaces(() => 0);
  const key = { board: makeBoardId(), document: "board" } as const;
  const guest = { key, member: makeMemberId(), wantsSaved: true };
  const lease = () => new Promise<never>(ignore);
  const ports = { lease, onEntered: ignore, onFault: ignore, early: new EarlyBytes() };
  const seated = () => {
    const socket = new TrialSocket();
    const connection = { cork: ignore, uncork: ignore };
    const caller = { socket, connection } as unknown as Caller;
    seatInPlace(caller, guest, places, { ...ports, onRefused: ignore, now: () => 0 });
    return socket;
  };
  const flood = seated();
  const most = messagesPerBoardBurst + messagesLetBeBurst;
  for (let i = 0; i < most; i += 1) flood.emit("message", Buffer.from([3]), true);
  expect(flood.closes).toEqual([]);
  expect(flood.emit("message", Buffer.from([3]), true)).toBe(true);
  expect(flood.closes).toEqual([`${closeCode.tooFast} too many messages on this board`]);
  expect(flood.emit("message", Buffer.from([3]), true)).toBe(false);
  const others = many(socketsPerBoardMax - 1, seated);
  const late = seated();
  expect(late.closes).toEqual([`${closeCode.tryLater} too many are connected`]);
  others[0]?.emit("close");
  expect(seated().closes).toEqual([]);
});
