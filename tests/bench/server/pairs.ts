/** Pairs of sockets in one document each: one writes, the other hears. */
import { once } from "node:events";
import { WebSocket } from "ws";
import type { Offer, Shared } from "./target.ts";

export type Pair = {
  readonly writer: WebSocket;
  readonly hearer: WebSocket;
  /** When each edit that was not heard yet was sent, oldest first; in ms. */
  readonly sent: number[];
  /** Likewise for those that were not acknowledged. */
  readonly unacknowledged: number[];
};

export type Heard = {
  /** An edit of this pair's writer reached its hearer, so many ms after it was sent. */
  edit(pair: Pair, ms: number): void;
  /** And was said to be saved. */
  saved(ms: number): void;
};

/**
 * Opens a pair for each document; resolves when all of them are let in. `heard` is told what
 * arrives, from the first frame on.
 */
export async function openPairs(
  { address, hearersAt = address, greets, origin }: Offer,
  documents: readonly Shared[],
  heard: Heard,
): Promise<readonly Pair[]> {
  const opened = documents.map(async ({ path, writerCookie, hearerCookie }) => {
    const open = (at: string, cookie: string) =>
      new WebSocket(`${at}${path}?saved=1`, {
        headers: { origin: origin === "" ? "" : at.replace("ws", "http"), cookie },
      });
    const pair = {
      writer: open(address, writerCookie),
      hearer: open(hearersAt, hearerCookie),
      sent: [],
      unacknowledged: [],
    };
    listen(pair, heard);
    const isIn = greets ? "message" : "open";
    await Promise.all([once(pair.writer, isIn), once(pair.hearer, isIn)]);
    return pair;
  });
  return Promise.all(opened);
}

/** Sends an edit and notes when. */
export function sendEdit({ writer, sent, unacknowledged }: Pair, frame: Uint8Array): void {
  const now = performance.now();
  sent.push(now);
  unacknowledged.push(now);
  writer.send(frame);
}

/** Closes all and waits until the last is closed. */
export async function closePairs(pairs: readonly Pair[]): Promise<void> {
  const sockets = pairs.flatMap(({ writer, hearer }) => [writer, hearer]);
  const closed = sockets.map((socket) => once(socket, "close"));
  for (const socket of sockets) {
    socket.removeAllListeners("message");
    socket.close(1000);
  }
  await Promise.all(closed);
}

function listen(pair: Pair, heard: Heard): void {
  pair.hearer.on("message", (bytes: Buffer) => {
    if (bytes[0] !== 0 || bytes[1] !== 2) return;
    const at = pair.sent.shift();
    if (at !== undefined) heard.edit(pair, performance.now() - at);
  });
  let acknowledged = 0;
  pair.writer.on("message", (bytes: Buffer) => {
    if (bytes[0] !== savedMessage) return;
    const decided = decidedIn(bytes);
    const now = performance.now();
    for (; acknowledged < decided; acknowledged += 1) {
      const at = pair.unacknowledged.shift();
      if (at !== undefined) heard.saved(now - at);
    }
  });
  for (const socket of [pair.writer, pair.hearer]) {
    socket.on("close", (code) => {
      if (code !== 1000) throw new Error(`the server closed a socket under load with ${code}`);
    });
  }
}

const savedMessage = 100;

/** A saved message: its number, a state vector with its length, and how many are decided. */
function decidedIn(bytes: Buffer): number {
  const [length = 0, start = 0] = varUint(bytes, 1);
  const [decided = 0] = varUint(bytes, start + length);
  return decided;
}

/** The number that begins there, and where the bytes behind it begin. */
function varUint(bytes: Buffer, start: number): readonly number[] {
  let value = 0;
  let scale = 1;
  let at = start;
  for (; (bytes[at] ?? 0) > 127; at += 1) {
    value += ((bytes[at] ?? 0) & 127) * scale;
    scale *= 128;
  }
  return [value + (bytes[at] ?? 0) * scale, at + 1];
}
