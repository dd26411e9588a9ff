/**
 * A page without browser and network: a document that speaks the protocol over a line on which
 * every frame waits until the schedule lets it through.
 */
import type { MemberId } from "@halflap/board/board";
import { step1Frame, step2Frame, updateFrame } from "@halflap/server/frames";
import type { DocumentKey } from "@halflap/server/log-port";
import type { Lease, Rooms } from "@halflap/server/rooms";
import { Seat } from "@halflap/server/seat";
import {
  carriesUpdate,
  decodeDecided,
  decodeRefused,
  decodeSaved,
  refusedMessage,
  savedMessage,
} from "@halflap/wire/messages";
import * as decoding from "lib0/decoding";
import * as Y from "yjs";

const network = "network";

export type FakePageOptions = {
  readonly member: MemberId;
  readonly client: number;
  readonly now: () => number;
  /** Whether the server's questions reach it; a page that hears none is a variant. */
  readonly isAsked: boolean;
};

export class FakePage {
  doc = new Y.Doc();
  /** Frames on their way. */
  readonly toServer: Uint8Array[] = [];
  readonly toPage: Uint8Array[] = [];
  /** The document as it was when the server last said that all of it is on its disk. */
  saved: Uint8Array | undefined;
  /** Why something was refused, each time. */
  readonly refusals: string[] = [];
  private readonly options: FakePageOptions;
  private seat: Seat | undefined;
  private lease: Lease | undefined;
  private sent = 0;
  private decided = 0;
  /** Whether the server has been answered since it last lacked something. */
  private hasAnswered = false;

  constructor(options: FakePageOptions) {
    this.options = options;
    this.follow(options.client);
  }

  get isConnected(): boolean {
    return this.lease !== undefined;
  }

  get isOnTheWay(): boolean {
    return this.toServer.length + this.toPage.length > 0;
  }

  /** Nothing is on its way, and each frame with an update on this line was decided. */
  get isQuiet(): boolean {
    return this.isConnected && !this.isOnTheWay && this.decided === this.sent;
  }

  async connect(rooms: Pick<Rooms, "lease">, key: DocumentKey): Promise<void> {
    const { member, now } = this.options;
    const lease = await rooms.lease(key);
    const seat: Seat = new Seat({
      member,
      wantsSaved: true,
      now,
      line: {
        send: (frame) => {
          if (this.seat === seat) this.toPage.push(frame);
        },
        close: () => this.cut(),
        buffered: () => 0,
      },
    });
    this.seat = seat;
    this.lease = lease;
    this.sent = 0;
    this.decided = 0;
    this.hasAnswered = false;
    lease.room.enter(seat);
    this.say(step1Frame(Y.encodeStateVector(this.doc)));
  }

  /** The line breaks: what was on it is lost, and the server notices. */
  cut(): void {
    const { lease, seat } = this;
    this.crash();
    if (lease === undefined || seat === undefined) return;
    lease.room.leave(seat);
    lease.release();
  }

  /** The server is gone: nobody is left to notice. */
  crash(): void {
    this.seat = undefined;
    this.lease = undefined;
    this.toServer.length = 0;
    this.toPage.length = 0;
  }

  /** The page is loaded again with what its browser kept, under another client id. */
  reload(client: number): void {
    this.cut();
    const kept = Y.encodeStateAsUpdate(this.doc);
    this.doc = new Y.Doc();
    Y.applyUpdate(this.doc, kept, network);
    this.follow(client);
  }

  /** Lets the oldest frame through in one direction. */
  deliver(way: "to-server" | "to-page"): void {
    if (way === "to-page") {
      const frame = this.toPage.shift();
      if (frame !== undefined) this.hear(frame);
      return;
    }
    const frame = this.toServer.shift();
    if (frame !== undefined && this.seat !== undefined) this.lease?.room.receive(this.seat, frame);
  }

  /** Asks for what it lacks, as the stock client does now and then. */
  ask(): void {
    this.say(step1Frame(Y.encodeStateVector(this.doc)));
  }

  private follow(client: number): void {
    this.doc.clientID = client;
    this.doc.on("update", (update: Uint8Array, origin: unknown) => {
      if (origin !== network) this.say(updateFrame(update));
    });
  }

  private say(frame: Uint8Array): void {
    if (this.lease === undefined) return;
    if (carriesUpdate(frame)) this.sent += 1;
    this.toServer.push(frame);
  }

  private hear(frame: Uint8Array): void {
    const decoder = decoding.createDecoder(frame);
    const kind = decoding.readVarUint(decoder);
    if (kind === refusedMessage) {
      this.hasAnswered = false;
      this.refusals.push(decodeRefused(decoder));
    }
    if (kind === savedMessage) this.hearSaved(decodeSaved(decoder), decodeDecided(decoder));
    if (kind !== 0) return;
    const step = decoding.readVarUint(decoder);
    const bytes = decoding.readVarUint8Array(decoder);
    if (step !== 0) Y.applyUpdate(this.doc, bytes, network);
    else if (this.options.isAsked) {
      this.say(step2Frame(Y.encodeStateAsUpdate(this.doc, bytes)));
      this.hasAnswered = true;
    }
  }

  /** As the page does: a change is saved when its frame is decided and its content on the disk. */
  private hearSaved(stored: Uint8Array, decided: number): void {
    this.decided = decided;
    const clocks = Y.decodeStateVector(stored);
    const own = Y.decodeStateVector(Y.encodeStateVector(this.doc));
    const isThere = [...own].every(([client, clock]) => clock <= (clocks.get(client) ?? 0));
    if (isThere && this.hasAnswered && decided === this.sent) {
      this.saved = shownBy(this.doc);
    }
  }
}

/** What a page shows: others' edits that wait for what they build on are not among it. */
function shownBy(doc: Y.Doc): Uint8Array {
  const { pendingStructs, pendingDs } = doc.store;
  doc.store.pendingStructs = null;
  doc.store.pendingDs = null;
  const shown = Y.encodeStateAsUpdate(doc);
  doc.store.pendingStructs = pendingStructs;
  doc.store.pendingDs = pendingDs;
  return shown;
}
