/** A socket client that says whatever a test wants, and remembers every frame that it hears. */
import type { DocumentName } from "@halflap/board/documents";
import type { BoardId } from "@halflap/wire/api";
import {
  type ClockAnswer,
  clockAnswerMessage,
  decodeClockAnswer,
  decodeTogetherTold,
  type Told,
  togetherToldMessage,
} from "@halflap/wire/together";
import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import { WebSocket } from "ws";
import * as Y from "yjs";
import type { Visitor } from "./browser-session.ts";

export type Heard =
  | { readonly kind: "step-1"; readonly stateVector: Uint8Array }
  | { readonly kind: "step-2" | "update"; readonly update: Uint8Array }
  | { readonly kind: "awareness"; readonly entries: readonly AwarenessEntry[] }
  | { readonly kind: "saved"; readonly stateVector: Uint8Array; readonly decided: number }
  | { readonly kind: "refused"; readonly why: string }
  | { readonly kind: "time"; readonly answer: ClockAnswer }
  | { readonly kind: "told"; readonly told: Told | undefined };

export type AwarenessEntry = {
  readonly client: number;
  readonly clock: number;
  readonly state: unknown;
};

export type Close = { readonly code: number; readonly reason: string };

export class RawClient {
  /** Follows what the server says. */
  readonly doc = new Y.Doc();
  readonly heard: Heard[] = [];
  readonly socket: WebSocket;
  readonly closed: Promise<Close>;
  private readonly listeners = new Set<() => void>();

  private constructor(socket: WebSocket) {
    this.socket = socket;
    socket.binaryType = "arraybuffer";
    this.closed = new Promise((resolve) => {
      socket.on("close", (code, reason) => resolve({ code, reason: reason.toString() }));
    });
    socket.on("error", () => undefined);
    socket.on("message", (bytes: ArrayBuffer) => this.hear(new Uint8Array(bytes)));
  }

  /** Opens a document's socket as a visitor, with the frames of ours asked for. */
  static open(
    visitor: Visitor,
    board: BoardId,
    document: DocumentName | string,
    headers: Readonly<Record<string, string>> = { origin: visitor.address },
  ): RawClient {
    const url = `${visitor.address.replace("http", "ws")}/sync/${board}/${document}?saved=1`;
    const cookie = visitor.cookie === undefined ? {} : { cookie: visitor.cookie };
    return new RawClient(new WebSocket(url, { headers: { ...headers, ...cookie } }));
  }

  /** Opens it and waits until the server's whole state is here. */
  static async synced(...options: Parameters<typeof RawClient.open>): Promise<RawClient> {
    const client = RawClient.open(...options);
    await client.until(({ kind }) => kind === "step-1");
    client.sendStep1();
    await client.until(({ kind }) => kind === "step-2");
    return client;
  }

  /**
   * The first frame, heard already or yet to come, that a test is after. Rejects when the socket
   * closes.
   */
  until(isWanted: (frame: Heard) => boolean): Promise<Heard> {
    return new Promise((resolve, reject) => {
      const look = () => {
        const found = this.heard.find(isWanted);
        if (found === undefined) return;
        this.listeners.delete(look);
        resolve(found);
      };
      this.listeners.add(look);
      void this.closed.then(({ code, reason }) =>
        reject(new Error(`closed with ${code} ${reason} before the frame came`)),
      );
      look();
    });
  }

  /**
   * Waits until everything sent so far has been answered: the server takes a socket's frames in
   * order.
   */
  async settled(): Promise<void> {
    const before = this.count("step-2");
    this.sendStep1();
    await this.until(() => this.count("step-2") > before);
  }

  sendStep1(): void {
    this.sendSync(0, Y.encodeStateVector(this.doc));
  }

  sendStep2(update: Uint8Array): void {
    this.sendSync(1, update);
  }

  sendUpdate(update: Uint8Array): void {
    this.sendSync(2, update);
  }

  sendAwareness(entries: readonly AwarenessEntry[]): void {
    const inner = encoding.createEncoder();
    encoding.writeVarUint(inner, entries.length);
    for (const { client, clock, state } of entries) {
      encoding.writeVarUint(inner, client);
      encoding.writeVarUint(inner, clock);
      encoding.writeVarString(inner, JSON.stringify(state));
    }
    const frame = encoding.createEncoder();
    encoding.writeVarUint(frame, 1);
    encoding.writeVarUint8Array(frame, encoding.toUint8Array(inner));
    this.sendBytes(encoding.toUint8Array(frame));
  }

  sendBytes(bytes: Uint8Array): void {
    if (this.socket.readyState === WebSocket.OPEN) this.socket.send(bytes);
    else this.socket.once("open", () => this.socket.send(bytes));
  }

  count(kind: Heard["kind"]): number {
    return this.heard.filter((frame) => frame.kind === kind).length;
  }

  async close(): Promise<void> {
    this.socket.close();
    await this.closed;
  }

  private sendSync(kind: number, bytes: Uint8Array): void {
    const frame = encoding.createEncoder();
    encoding.writeVarUint(frame, 0);
    encoding.writeVarUint(frame, kind);
    encoding.writeVarUint8Array(frame, bytes);
    this.sendBytes(encoding.toUint8Array(frame));
  }

  private hear(bytes: Uint8Array): void {
    const frame = readFrame(bytes);
    if (frame.kind === "step-2" || frame.kind === "update") Y.applyUpdate(this.doc, frame.update);
    this.heard.push(frame);
    for (const look of [...this.listeners]) look();
  }
}

function readFrame(bytes: Uint8Array): Heard {
  const decoder = decoding.createDecoder(bytes);
  switch (decoding.readVarUint(decoder)) {
    case 0:
      return readSync(decoder);
    case 1:
      return { kind: "awareness", entries: readEntries(decoding.readVarUint8Array(decoder)) };
    case 100: {
      const stateVector = decoding.readVarUint8Array(decoder);
      return { kind: "saved", stateVector, decided: decoding.readVarUint(decoder) };
    }
    case 101:
      return { kind: "refused", why: decoding.readVarString(decoder) };
    case clockAnswerMessage:
      return { kind: "time", answer: decodeClockAnswer(decoder) };
    case togetherToldMessage:
      return { kind: "told", told: decodeTogetherTold(decoder) };
    default:
      throw new Error("the server said something of no known kind");
  }
}

function readSync(decoder: decoding.Decoder): Heard {
  const kind = decoding.readVarUint(decoder);
  const bytes = decoding.readVarUint8Array(decoder);
  if (kind === 0) return { kind: "step-1", stateVector: bytes };
  return { kind: kind === 1 ? "step-2" : "update", update: bytes };
}

function readEntries(bytes: Uint8Array): readonly AwarenessEntry[] {
  const decoder = decoding.createDecoder(bytes);
  const count = decoding.readVarUint(decoder);
  return Array.from({ length: count }, () => ({
    client: decoding.readVarUint(decoder),
    clock: decoding.readVarUint(decoder),
    state: JSON.parse(decoding.readVarString(decoder)) as unknown,
  }));
}
