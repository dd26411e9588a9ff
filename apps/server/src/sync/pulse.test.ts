/** W9 and the buffer limit: dead lines end, quiet ones hear something, a full store is retried. */
import { EventEmitter } from "node:events";
import { memberId } from "@halflap/board/talk";
import { bufferedBytesMax, keepAliveMs } from "@halflap/wire/limits";
import { closeCode } from "@halflap/wire/messages";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { retryMs, startPulse } from "./pulse.ts";
import type { Room } from "./room.ts";
import { Seat } from "./seat.ts";

let stop: () => void;
let heard: string[];
let sockets: FakeSocket[];

/** As far as the pulse goes: it is pinged, and answers or not. */
class FakeSocket extends EventEmitter {
  isDead = false;
  pings = 0;
  isEnded = false;

  ping(): void {
    this.pings += 1;
    if (!this.isDead) this.emit("pong");
  }

  terminate(): void {
    this.isEnded = true;
  }
}

beforeEach(() => {
  vi.useFakeTimers();
  heard = [];
  sockets = [];
  const told = (what: string) => () => heard.push(what);
  const room = { keepAlive: told("keep-alive"), retry: told("retry") } as unknown as Room;
  stop = startPulse({
    rooms: { open: () => [room], compactLong: async () => void heard.push("compact") },
    desk: { retry: async () => void heard.push("desk") },
    sockets: () => sockets,
    onFault: (fault) => heard.push(`fault ${String(fault)}`),
  });
});

afterEach(() => {
  stop();
  vi.useRealTimers();
});

test("W9 a socket that answers stays; one that fell silent ends after the next ping", async () => {
  const [alive, dead] = [new FakeSocket(), new FakeSocket()];
  sockets.push(alive, dead);
  await vi.advanceTimersByTimeAsync(keepAliveMs);
  expect([alive.pings, dead.pings, alive.isEnded, dead.isEnded]).toEqual([1, 1, false, false]);
  dead.isDead = true;
  await vi.advanceTimersByTimeAsync(keepAliveMs);
  expect([alive.isEnded, dead.isEnded]).toEqual([false, false]); // it had answered the first ping
  await vi.advanceTimersByTimeAsync(keepAliveMs);
  expect([alive.pings, alive.isEnded, dead.isEnded]).toEqual([3, false, true]);
});

test("W9 a quiet line hears something in time, and long logs are folded", async () => {
  await vi.advanceTimersByTimeAsync(keepAliveMs);
  expect(heard.filter((what) => what === "keep-alive" || what === "compact")).toEqual([
    "keep-alive",
    "compact",
  ]);
});

test("what the store had no room for is tried again, until the pulse stops", async () => {
  await vi.advanceTimersByTimeAsync(2 * retryMs);
  expect(heard).toEqual(["retry", "desk", "retry", "desk"]);
  stop();
  await vi.advanceTimersByTimeAsync(keepAliveMs);
  expect(heard).toHaveLength(4);
});

test("a socket that leaves too much unread is closed, told no more, and may come again", () => {
  const sent: number[] = [];
  const codes: number[] = [];
  let unread = bufferedBytesMax;
  const line = {
    send: (frame: Uint8Array) => sent.push(frame.length),
    close: (code: number) => codes.push(code),
    buffered: () => unread,
  };
  const seat = new Seat({
    member: memberId("ada"),
    wantsSaved: true,
    now: () => 0,
    line,
  });
  seat.send(new Uint8Array(3));
  expect([sent, codes]).toEqual([[3], []]);
  unread += 1;
  seat.send(new Uint8Array(3));
  unread = 0;
  seat.send(new Uint8Array(3));
  expect([sent, codes]).toEqual([[3], [closeCode.tryLater]]);
  expect(seat.mayReceive()).toBe(false);
});
