/**
 * A WebSocket as a seat: let in or turned away at the door, heard, kept alive, and always let go.
 */

import type { MemberId } from "@halflap/board/board";
import { closeCode, type UpdateRefusal } from "@halflap/wire/messages";
import type { WebSocket } from "ws";
import type { DocumentKey } from "../store/log-port.ts";
import { type EarlyBytes, EarlyFrames } from "./early-frames.ts";
import { SetAside } from "./quarantine.ts";
import type { Lease } from "./rooms.ts";
import { Seat } from "./seat.ts";
import { type Caller, SocketLine } from "./socket-line.ts";

export type Guest = {
  readonly key: DocumentKey;
  readonly member: MemberId;
  readonly wantsSaved: boolean;
};

export type SocketPorts = {
  lease(key: DocumentKey): Promise<Lease>;
  /** Called when the room is entered, so that `talk` is up to date for whoever comes. */
  onEntered(guest: Guest): void;
  onFault(fault: unknown): void;
  /** Called for every update and question that is refused. */
  onRefused(refusal: UpdateRefusal): void;
  /** What all sockets of the process keep before their rooms are open. */
  readonly early: EarlyBytes;
  /** Milliseconds that never go back, from any start. */
  readonly now: () => number;
};

/**
 * Closes a socket that was accepted only to be told why not: a refused upgrade would be tried for
 * ever.
 */
export function turnAway(socket: WebSocket, code: number, reason: string): void {
  socket.on("error", () => undefined);
  socket.close(code, reason);
}

/** What a socket shares with others that came to the same board. */
export type SharedRate = { mayReceive(): boolean };

/** Seats a guest for as long as the socket lasts. */
export function seatGuest(
  caller: Caller,
  guest: Guest,
  ports: SocketPorts,
  shared: SharedRate,
): void {
  const { socket } = caller;
  const seat = new Seat({
    member: guest.member,
    wantsSaved: guest.wantsSaved,
    now: ports.now,
    onRefused: ports.onRefused,
    line: new SocketLine(caller),
  });
  const early = new EarlyFrames(ports.early);
  let receive = (frame: Uint8Array) => {
    if (early.add(frame)) return;
    letGo();
    seat.close(closeCode.tryLater, "too much before the start");
  };
  const letGo = () => {
    receive = () => undefined; // what still comes before the other end has closed
    early.takeAll();
  };
  socket.on("close", letGo);
  // A socket without this listener would end the process at its first bad frame.
  socket.on("error", terminate);
  socket.on("message", (message: Buffer, isBinary) => {
    if (shared.mayReceive()) {
      receive(isBinary ? viewOf(message) : new Uint8Array());
      return;
    }
    socket.removeAllListeners("message"); // what still comes before the other end has closed
    seat.close(closeCode.tooFast, "too many messages on this board");
  });
  void take(socket, guest, ports, seat).then((hear) => {
    for (const frame of early.takeAll()) hear(frame);
    receive = hear;
  });
}

function terminate(this: WebSocket): void {
  this.terminate();
}

/** Not a copy: whoever keeps something of it copies that. */
function viewOf({ buffer, byteOffset, length }: Buffer): Uint8Array {
  return new Uint8Array(buffer, byteOffset, length);
}

async function take(
  socket: WebSocket,
  guest: Guest,
  ports: SocketPorts,
  seat: Seat,
): Promise<(frame: Uint8Array) => void> {
  try {
    const { room, release } = await ports.lease(guest.key);
    if (socket.readyState !== socket.OPEN) {
      release();
      return () => undefined;
    }
    socket.on("close", () => {
      room.leave(seat);
      release();
    });
    room.enter(seat);
    ports.onEntered(guest);
    return (frame) => {
      try {
        room.receive(seat, frame);
      } catch (fault) {
        ports.onFault(fault); // a fault of ours over one frame ends one socket, not the process
        seat.close(closeCode.tryLater, "that frame can't be taken just now");
      }
    };
  } catch (fault) {
    if (fault instanceof SetAside) {
      seat.close(closeCode.unreadable, "the server can't read this document");
      return () => undefined;
    }
    ports.onFault(fault);
    seat.close(closeCode.tryLater, "the board can't be opened just now");
    return () => undefined;
  }
}
