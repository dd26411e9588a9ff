/**
 * A fake server behind fake sockets: real Yjs documents and the real protocol, no network, no disk. A test
 * decides when something counts as saved, what is refused, and when the line breaks.
 */
import { encodeRefused, encodeSaved, type UpdateRefusal } from "@halflap/wire/messages";
import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import * as sync from "y-protocols/sync";
import * as Y from "yjs";

const syncMessage = 0;

export type FakeServer = {
  /** Hand this to a session instead of the browser's WebSocket. */
  readonly Socket: typeof WebSocket;
  /** The server's document of a room, "board/document". */
  doc(room: string): Y.Doc;
  /** Whether what arrives is said to be saved at once; turning it on says so for all that came before. */
  saves(now: boolean): void;
  /** What arrives in a room from now on is refused, or (undefined) taken again. */
  refuses(room: string, refusal: UpdateRefusal | undefined): void;
  /** Whether new sockets reach the server; turning it off breaks those that are open. */
  reachable(now: boolean): void;
  /** Ends every socket with a code. */
  close(code: number): void;
};

/** A server that knows no document yet, reachable, and saves at once. */
export function makeFakeServer(): FakeServer {
  const docs = new Map<string, Y.Doc>();
  const sockets = new Set<FakeSocket>();
  const refusals = new Map<string, UpdateRefusal>();
  let isSaving = true;
  let isReachable = true;
  const doc = (room: string) => {
    const known = docs.get(room) ?? new Y.Doc();
    docs.set(room, known);
    return known;
  };

  class FakeSocket extends EventTarget {
    static readonly OPEN = 1;
    readonly OPEN = 1;
    readyState = 0;
    binaryType = "arraybuffer";
    onopen: (() => void) | null = null;
    onmessage: ((event: { data: ArrayBuffer }) => void) | null = null;
    onclose: ((event: { code: number; reason: string }) => void) | null = null;
    onerror: ((event: Event) => void) | null = null;
    decided = 0;
    readonly room: string;

    constructor(address: string) {
      super();
      this.room = new URL(address).pathname.replace("/sync/", "");
      queueMicrotask(() => this.open());
    }

    open(): void {
      if (!isReachable) {
        this.end(1006);
        return;
      }
      this.readyState = 1;
      sockets.add(this);
      this.onopen?.();
      const hello = encoding.createEncoder();
      encoding.writeVarUint(hello, syncMessage);
      sync.writeSyncStep1(hello, doc(this.room));
      this.say(encoding.toUint8Array(hello));
      if (isSaving) this.saySaved();
    }

    send(frame: Uint8Array): void {
      const decoder = decoding.createDecoder(frame);
      if (decoding.readVarUint(decoder) !== syncMessage) {
        this.relay(frame);
        return;
      }
      const answer = encoding.createEncoder();
      encoding.writeVarUint(answer, syncMessage);
      const refusal = refusals.get(this.room);
      const carries = frame[1] === 1 || frame[1] === 2;
      if (carries) this.decided += 1;
      if (carries && refusal !== undefined && bringsNews(doc(this.room), frame)) {
        this.say(encodeRefused(refusal));
      } else {
        sync.readSyncMessage(decoder, answer, doc(this.room), this);
        if (encoding.length(answer) > 1) this.say(encoding.toUint8Array(answer));
        if (frame[1] === 2) this.relay(frame, true);
      }
      if (carries && isSaving) this.saySaved();
    }

    saySaved(): void {
      this.say(encodeSaved(Y.encodeStateVector(doc(this.room)), this.decided));
    }

    /** To everybody in the room; presence also goes back to its sender. */
    relay(frame: Uint8Array, othersOnly = false): void {
      for (const socket of sockets) {
        if (socket.room === this.room && !(othersOnly && socket === this)) socket.say(frame);
      }
    }

    say(frame: Uint8Array): void {
      const data = frame.slice().buffer;
      queueMicrotask(() => {
        if (this.readyState === 1) this.onmessage?.({ data });
      });
    }

    close(): void {
      this.end(1000);
    }

    end(code: number): void {
      if (this.readyState === 3) return;
      this.readyState = 3;
      sockets.delete(this);
      this.onclose?.({ code, reason: "" });
    }
  }

  return {
    Socket: FakeSocket as unknown as typeof WebSocket,
    doc,
    saves(now) {
      isSaving = now;
      if (now) for (const socket of sockets) socket.saySaved();
    },
    refuses(room, refusal) {
      if (refusal === undefined) refusals.delete(room);
      else refusals.set(room, refusal);
    },
    reachable(now) {
      isReachable = now;
      if (!now) for (const socket of [...sockets]) socket.end(1006);
    },
    close(code) {
      for (const socket of [...sockets]) socket.end(code);
    },
  };
}

/** Whether an update frame holds anything that a document lacks. */
function bringsNews(doc: Y.Doc, frame: Uint8Array): boolean {
  const decoder = decoding.createDecoder(frame);
  decoding.readVarUint(decoder);
  decoding.readVarUint(decoder);
  const update = decoding.readVarUint8Array(decoder);
  const before = new Y.Doc();
  Y.applyUpdate(before, Y.encodeStateAsUpdate(doc));
  let news = false;
  before.on("update", () => {
    news = true;
  });
  Y.applyUpdate(before, update);
  return news;
}
