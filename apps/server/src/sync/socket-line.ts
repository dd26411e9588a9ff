/** The line of a seat: frames written on the connection under a WebSocket, past the library. */
import type { WebSocket } from "ws";
import type { Line } from "./seat.ts";
import { socketFrame } from "./socket-frame.ts";
import { type Corked, TurnWrites } from "./turn-writes.ts";

/** A WebSocket and the connection under it. */
export type Caller = { readonly socket: WebSocket; readonly connection: Corked };

/**
 * The library writes a head and a body for each frame; most of an edit's cost is its writes. One
 * for each socket, so it is a class: functions of its own would weigh more than the seat.
 */
export class SocketLine implements Line {
  private readonly socket: WebSocket;
  private readonly writes: TurnWrites;

  constructor({ socket, connection }: Caller) {
    this.socket = socket;
    this.writes = new TurnWrites(connection);
  }

  send(frame: Uint8Array): void {
    if (this.socket.readyState !== this.socket.OPEN) return;
    for (const bytes of socketFrame(frame)) this.writes.write(bytes);
  }

  close(code: number, reason: string): void {
    this.writes.flush(); // what was said before is heard before
    this.socket.close(code, reason);
  }

  buffered(): number {
    return this.socket.bufferedAmount + this.writes.bytes;
  }
}
