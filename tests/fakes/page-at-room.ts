/** A page as far as a room of the server sees it: what its seat says and hears, with no socket. */
import type { MemberId } from "@halflap/board/board";
import { step2Frame, updateFrame } from "@halflap/server/frames";
import type { Lease } from "@halflap/server/rooms";
import { Seat } from "@halflap/server/seat";
import { decodeRefused, decodeSaved, refusedMessage, savedMessage } from "@halflap/wire/messages";
import * as decoding from "lib0/decoding";
import * as Y from "yjs";

const network = "network";

type Room = Pick<Lease["room"], "enter" | "receive">;

/** It never leaves, and answers only when told. */
export class PageAtRoom {
  readonly doc = new Y.Doc();
  /** Since it came in: "asked", "answer", "edit", "saved 3" (items), or why it is refused. */
  readonly heard: string[] = [];
  readonly seat: Seat;
  private readonly room: Room;

  /** Comes in to a room; whatever it edits is sent at once, under its client id. `now` is in ms. */
  constructor(room: Room, member: MemberId, client: number, now: () => number) {
    this.room = room;
    this.doc.clientID = client;
    const line = {
      send: (frame: Uint8Array) => this.hear(frame),
      close: () => undefined,
      buffered: () => 0,
    };
    this.seat = new Seat({ member, wantsSaved: true, now, line });
    room.enter(this.seat);
    this.heard.length = 0;
    this.doc.on("update", (update: Uint8Array, origin: unknown) => {
      if (origin !== network) room.receive(this.seat, updateFrame(update));
    });
  }

  get map(): Y.Map<unknown> {
    return this.doc.getMap("m");
  }

  /** Has something that it did not hear from this room. */
  take(update: Uint8Array): void {
    Y.applyUpdate(this.doc, update, network);
  }

  /** Answers step 1 with all that it has. */
  answer(): void {
    this.room.receive(this.seat, step2Frame(Y.encodeStateAsUpdate(this.doc)));
  }

  /** What it heard since it was asked last. */
  hears(): readonly string[] {
    return this.heard.splice(0);
  }

  private hear(frame: Uint8Array): void {
    const decoder = decoding.createDecoder(frame);
    const kind = decoding.readVarUint(decoder);
    if (kind === refusedMessage) this.heard.push(decodeRefused(decoder));
    if (kind === savedMessage) {
      const clocks = [...Y.decodeStateVector(decodeSaved(decoder)).values()];
      this.heard.push(`saved ${clocks.reduce((sum, clock) => sum + clock, 0)}`);
    }
    if (kind !== 0) return;
    const step = decoding.readVarUint(decoder);
    this.heard.push(["asked", "answer", "edit"][step] ?? "?");
    if (step !== 0) this.take(decoding.readVarUint8Array(decoder));
  }
}
