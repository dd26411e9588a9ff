/**
 * A fake server behind fake sockets: real Yjs documents and the real protocol, no network, no disk.
 * A test decides when something counts as saved, what is refused, and when the line breaks.
 */
import { encodeRefused, encodeSaved, type UpdateRefusal } from "@halflap/wire/messages";
import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import * as sync from "y-protocols/sync";
import * as Y from "yjs";

const syncMessage = 0;
const brokenLine = 1006;

export type FakeServer = {
  /** Hand this to a session instead of the browser's WebSocket. */
  readonly Socket: typeof WebSocket;
  /** The server's document of a room, "board/document". */
  doc(room: string): Y.Doc;
  /** Puts another document in the place of a room's, as a server does that lost something. */
  replace(room: string, doc: Y.Doc): void;
  /** Whether what arrives is said to be saved at once; turned on, all that came before is too. */
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
  const state = new ServerState();
  class Socket extends FakeSocket {
    constructor(address: string) {
      super(state, address);
    }
  }
  const open = () => [...state.sockets];
  return {
    Socket: Socket as unknown as typeof WebSocket,
    doc: (room) => state.doc(room),
    replace: (room, doc) => state.replace(room, doc),
    saves(now) {
      state.isSaving = now;
      if (now) for (const socket of open()) socket.saySaved();
    },
    refuses(room, refusal) {
      if (refusal === undefined) state.refusals.delete(room);
      else state.refusals.set(room, refusal);
    },
    reachable(now) {
      state.isReachable = now;
      if (!now) for (const socket of open()) socket.end(brokenLine);
    },
    close(code) {
      for (const socket of open()) socket.end(code);
    },
  };
}

class ServerState {
  readonly sockets = new Set<FakeSocket>();
  readonly refusals = new Map<string, UpdateRefusal>();
  isSaving = true;
  isReachable = true;
  readonly #docs = new Map<string, Y.Doc>();

  doc(room: string): Y.Doc {
    const doc = this.#docs.get(room) ?? new Y.Doc();
    this.#docs.set(room, doc);
    return doc;
  }

  replace(room: string, doc: Y.Doc): void {
    this.#docs.set(room, doc);
  }
}

class FakeSocket extends EventTarget {
  readonly OPEN = 1;
  readyState = 0;
  binaryType = "arraybuffer";
  onopen: (() => void) | null = null;
  onmessage: ((event: { data: ArrayBuffer }) => void) | null = null;
  onclose: ((event: { code: number; reason: string }) => void) | null = null;
  onerror: ((event: Event) => void) | null = null;
  readonly #server: ServerState;
  readonly #room: string;
  #decided = 0;
  #presence: Uint8Array | undefined;

  constructor(server: ServerState, address: string) {
    super();
    this.#server = server;
    this.#room = new URL(address).pathname.replace("/sync/", "");
    queueMicrotask(() => this.#open());
  }

  send(frame: Uint8Array): void {
    if (frame[0] !== syncMessage) this.#speak(frame);
    else if (frame[1] === 0) this.#answer(frame);
    else this.#take(frame);
  }

  close(): void {
    this.end(1000);
  }

  end(code: number): void {
    if (this.readyState === 3) return;
    this.readyState = 3;
    this.#server.sockets.delete(this);
    this.onclose?.({ code, reason: "" });
  }

  saySaved(): void {
    this.#say(encodeSaved(Y.encodeStateVector(this.#doc), this.#decided));
  }

  get #doc(): Y.Doc {
    return this.#server.doc(this.#room);
  }

  #open(): void {
    if (!this.#server.isReachable) {
      this.end(brokenLine);
      return;
    }
    this.readyState = 1;
    this.#tellWhoIsHere();
    this.#server.sockets.add(this);
    this.onopen?.();
    const hello = encoding.createEncoder();
    encoding.writeVarUint(hello, syncMessage);
    sync.writeSyncStep1(hello, this.#doc);
    this.#say(encoding.toUint8Array(hello));
    if (this.#server.isSaving) this.saySaved();
  }

  /** Presence: everybody hears it, and so does whoever comes later. */
  #speak(frame: Uint8Array): void {
    this.#presence = frame.slice();
    this.#relay(frame, "everybody");
  }

  #tellWhoIsHere(): void {
    for (const socket of this.#server.sockets) {
      if (socket.#room === this.#room && socket.#presence !== undefined)
        this.#say(socket.#presence);
    }
  }

  /** Sync step 1: says what the page lacks. */
  #answer(frame: Uint8Array): void {
    const answer = encoding.createEncoder();
    encoding.writeVarUint(answer, syncMessage);
    sync.readSyncMessage(decoding.createDecoder(frame.slice(1)), answer, this.#doc, this);
    this.#say(encoding.toUint8Array(answer));
  }

  /** Sync step 2 or an update: taken and relayed, or refused if it brings anything. */
  #take(frame: Uint8Array): void {
    this.#decided += 1;
    const update = updateIn(frame);
    const refusal = this.#server.refusals.get(this.#room);
    if (refusal !== undefined && bringsNews(this.#doc, update)) this.#say(encodeRefused(refusal));
    else {
      Y.applyUpdate(this.#doc, update);
      this.#relay(frame, "others");
    }
    if (this.#server.isSaving) this.saySaved();
  }

  #relay(frame: Uint8Array, to: "everybody" | "others"): void {
    for (const socket of this.#server.sockets) {
      if (socket.#room !== this.#room || (to === "others" && socket === this)) continue;
      socket.#say(frame);
    }
  }

  #say(frame: Uint8Array): void {
    const data = frame.slice().buffer;
    queueMicrotask(() => {
      if (this.readyState !== 1) return;
      this.dispatchEvent(new Event("message"));
      this.onmessage?.({ data });
    });
  }
}

function updateIn(frame: Uint8Array): Uint8Array {
  return decoding.readVarUint8Array(decoding.createDecoder(frame.slice(2)));
}

/** Whether an update holds anything that a document lacks. */
function bringsNews(doc: Y.Doc, update: Uint8Array): boolean {
  const copy = new Y.Doc();
  Y.applyUpdate(copy, Y.encodeStateAsUpdate(doc));
  let news = false;
  copy.on("update", () => {
    news = true;
  });
  Y.applyUpdate(copy, update);
  return news;
}
