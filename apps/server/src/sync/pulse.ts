/**
 * The server's slow clocks: dead sockets are found, quiet lines kept alive, long logs folded, and a
 * full store tried again.
 */
import { keepAliveMs } from "@halflap/wire/limits";
import type { WebSocket } from "ws";
import type { Room } from "./room.ts";
import type { Rooms } from "./rooms.ts";

/** How often writers are asked again for what the store had no room for. */
export const retryMs = 2_000;

/** Starts them; what comes back stops them. */
export function startPulse(
  rooms: Rooms,
  sockets: () => Iterable<WebSocket>,
  onFault: (fault: unknown) => void,
): () => void {
  const answered = new WeakSet<WebSocket>();
  const known = new WeakSet<WebSocket>();
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
  const everyRoom = async (act: (room: Room) => void) => {
    for (const room of await rooms.open()) act(room);
  };
  const timers = [
    setInterval(ping, keepAliveMs),
    setInterval(() => void everyRoom((room) => room.keepAlive()), keepAliveMs),
    setInterval(() => void everyRoom((room) => room.retry()), retryMs),
    setInterval(() => void rooms.compactLong().catch(onFault), keepAliveMs),
  ];
  return () => {
    for (const timer of timers) clearInterval(timer);
  };
}
