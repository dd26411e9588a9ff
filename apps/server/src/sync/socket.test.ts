/** A socket before its room is loaded: what it may say, and that no more is held than is said. */
import { EventEmitter } from "node:events";
import { earlyBytesMax, earlyBytesPerSocketMax, frameBytesMax } from "@halflap/wire/limits";
import { closeCode } from "@halflap/wire/messages";
import { expect, test } from "vitest";
import { makeBoardId, makeMemberId } from "../store/secret.ts";
import { EarlyBytes } from "./early-frames.ts";
import type { Lease } from "./rooms.ts";
import { seatGuest } from "./socket.ts";
import type { Caller } from "./socket-line.ts";

const ignore = () => undefined;

/** A socket that says what it hears also after it was closed from here, as the library does. */
class TrialSocket extends EventEmitter {
  readonly OPEN = 1;
  readyState = 1;
  readonly bufferedAmount = 0;
  readonly closes: number[] = [];
  close(code: number): void {
    this.readyState = 2;
    this.closes.push(code);
  }
}

function seated(all = new EarlyBytes()) {
  const socket = new TrialSocket();
  const connection = { writable: true, write: ignore, cork: ignore, uncork: ignore };
  const heard: number[] = [];
  let letIn: (lease: Lease) => void = ignore;
  const room = {
    enter: ignore,
    leave: ignore,
    receive: (_: unknown, f: Uint8Array) => heard.push(f.length),
  };
  const ports = {
    lease: () =>
      new Promise<Lease>((resolve) => {
        letIn = resolve;
      }),
    onEntered: ignore,
    onFault: ignore,
    onRefused: ignore,
    early: all,
    now: () => 0,
  };
  const key = { board: makeBoardId(), document: "board" } as const;
  const caller = { socket, connection } as unknown as Caller;
  seatGuest(caller, { key, member: makeMemberId(), wantsSaved: true }, ports, {
    mayReceive: () => true,
  });
  const say = (bytes: number) => socket.emit("message", Buffer.alloc(bytes), true);
  const enter = async () => {
    letIn({ room, release: ignore } as unknown as Lease);
    await new Promise((resolve) => setImmediate(resolve));
  };
  const leave = () => socket.emit("close");
  return { socket, heard, say, enter, leave };
}

test("what is said before the room is there is heard once it is, in order", async () => {
  const { heard, say, enter } = seated();
  for (const bytes of [3, 1, 2]) say(bytes);
  await enter();
  say(4);
  expect(heard).toEqual([3, 1, 2, 4]);
});

test.each([
  ["large frames", frameBytesMax, 5],
  ["frames of nothing", 0, 40_000],
])("%s without end are let go, also those that still come", async (_what, bytes, count) => {
  const { socket, heard, say, enter } = seated();
  for (let i = 0; i < 2 * count; i += 1) say(bytes);
  expect(socket.closes).toEqual([closeCode.tryLater]);
  await enter();
  expect(heard).toEqual([]);
});

test("what all sockets say too early is bounded together, until it is let go", async () => {
  const all = new EarlyBytes();
  const full = earlyBytesMax / earlyBytesPerSocketMax;
  const others = Array.from({ length: full }, () => seated(all));
  for (const { say } of others) for (let i = 0; i < 3; i += 1) say(frameBytesMax);
  const most = Array.from({ length: full }, () => seated(all));
  for (const { say } of most) say(frameBytesMax);
  const late = seated(all);
  late.say(frameBytesMax);
  expect(late.socket.closes).toEqual([closeCode.tryLater]);
  expect(all.held).toBeLessThanOrEqual(earlyBytesMax);
  for (const { leave } of others) leave();
  const next = seated(all);
  next.say(frameBytesMax);
  expect(next.socket.closes).toEqual([]);
  for (const { enter } of [...most, next]) await enter();
  expect(next.heard).toEqual([frameBytesMax]);
  expect(all.held).toBe(0);
  for (const { say, enter, leave } of others) {
    say(1);
    await enter();
    leave();
  }
  expect(all.held).toBe(0);
});
