/**
 * The server's slow clocks: dead sockets are found, quiet lines kept alive, long logs folded, and a
 * full store tried again.
 */
import { keepAliveMs } from "@halflap/wire/limits";
import type { BoardDesk } from "./board-desk.ts";
import type { Rooms } from "./rooms.ts";

/** How often writers are asked again for what the store had no room for. */
export const retryMs = 2_000;

/** A WebSocket as far as its life is concerned. */
export type PingedSocket = {
  ping(): void;
  terminate(): void;
  on(event: "pong", heard: () => void): unknown;
};

export type PulsePorts = {
  readonly rooms: Pick<Rooms, "open" | "compactLong">;
  readonly desk: Pick<BoardDesk, "retry">;
  sockets(): Iterable<PingedSocket>;
  onFault(fault: unknown): void;
};

/** Starts them; what comes back stops them. */
export function startPulse({ rooms, desk, sockets, onFault }: PulsePorts): () => void {
  const answered = new WeakSet<PingedSocket>();
  const known = new WeakSet<PingedSocket>();
  const ping = () => {
    for (const socket of sockets()) {
      if (!known.has(socket)) {
        known.add(socket);
        answered.add(socket);
        socket.on("pong", () => answered.add(socket));
      }
      if (!answered.delete(socket)) socket.terminate();
      else socket.ping();
    }
  };
  const keepAlive = () => {
    for (const room of rooms.open()) room.keepAlive();
  };
  // In any order, so that no room is always behind the same one that asks for a lot.
  const retry = () => {
    const all = rooms.open().map((room) => ({ room, turn: Math.random() }));
    for (const { room } of all.sort((a, b) => a.turn - b.turn)) room.retry();
  };
  const timers = [
    setInterval(ping, keepAliveMs),
    setInterval(keepAlive, keepAliveMs),
    setInterval(retry, retryMs),
    setInterval(() => void desk.retry().catch(onFault), retryMs),
    setInterval(() => void rooms.compactLong().catch(onFault), keepAliveMs),
  ];
  return () => {
    for (const timer of timers) clearInterval(timer);
  };
}
