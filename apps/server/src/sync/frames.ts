/** The y-websocket frames: what a client may say, decoded once, and what the server says back. */
import {
  type ClockQuestion,
  clockQuestionMessage,
  decodeClockQuestion,
  decodeTogetherAsk,
  type SharedWish,
  togetherAskMessage,
} from "@halflap/wire/together";
import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";

/** The numbers of y-websocket and y-protocols. */
const sync = 0;
const awareness = 1;
const queryAwareness = 3;
const step1 = 0;
const step2 = 1;
const update = 2;

export type ClientFrame =
  | { readonly kind: "step-1"; readonly stateVector: ReadonlyMap<number, number> }
  | {
      readonly kind: "update";
      readonly as: "step-2" | "edit";
      readonly update: Uint8Array;
      /** The frame that passes it on, where that is this one. */
      readonly whole: Uint8Array | undefined;
    }
  | { readonly kind: "awareness"; readonly entries: Uint8Array }
  | { readonly kind: "query-awareness" }
  | { readonly kind: "clock-question"; readonly question: ClockQuestion }
  | { readonly kind: "together-ask"; readonly wish: SharedWish }
  /**
   * Neither of these, cut short, or followed by something. The list is closed: nothing else is
   * passed on.
   */
  | { readonly kind: "unreadable" };

const unreadable: ClientFrame = { kind: "unreadable" };

/** The frame in untrusted bytes. Never throws. */
export function decodeFrame(bytes: Uint8Array): ClientFrame {
  try {
    const decoder = decoding.createDecoder(bytes);
    const frame = readFrame(decoder);
    return decoding.hasContent(decoder) ? unreadable : frame;
  } catch {
    return unreadable; // lib0 throws at the end of the bytes
  }
}

type Reader = (decoder: decoding.Decoder) => ClientFrame;

type SyncReader = (bytes: Uint8Array, whole: Uint8Array) => ClientFrame;

const syncReaders: ReadonlyMap<number, SyncReader> = new Map<number, SyncReader>([
  [step1, (bytes) => ({ kind: "step-1", stateVector: readStateVector(bytes) })],
  [step2, (bytes) => ({ kind: "update", as: "step-2", update: bytes, whole: undefined })],
  [update, (bytes, whole) => ({ kind: "update", as: "edit", update: bytes, whole })],
]);

const readers: ReadonlyMap<number, Reader> = new Map<number, Reader>([
  [sync, readSync],
  [awareness, (decoder) => ({ kind: "awareness", entries: decoding.readVarUint8Array(decoder) })],
  [queryAwareness, () => ({ kind: "query-awareness" })],
  [clockQuestionMessage, readQuestion],
  [togetherAskMessage, readAsk],
]);

/** By which numbers a client's frames begin, such as "0.2" for sync's update: all there are. */
export const clientOpcodes: readonly string[] = [
  ...[...syncReaders.keys()].map((kind) => `${sync}.${kind}`),
  ...[...readers.keys()].filter((number) => number !== sync).map(String),
];

function readFrame(decoder: decoding.Decoder): ClientFrame {
  return readers.get(decoding.readVarUint(decoder))?.(decoder) ?? unreadable;
}

function readSync(decoder: decoding.Decoder): ClientFrame {
  const kind = decoding.readVarUint(decoder);
  const bytes = decoding.readVarUint8Array(decoder);
  return syncReaders.get(kind)?.(bytes, decoder.arr) ?? unreadable;
}

function readQuestion(decoder: decoding.Decoder): ClientFrame {
  const question = decodeClockQuestion(decoder);
  return question ? { kind: "clock-question", question } : unreadable;
}

function readAsk(decoder: decoding.Decoder): ClientFrame {
  const wish = decodeTogetherAsk(decoder);
  return wish ? { kind: "together-ask", wish } : unreadable;
}

function readStateVector(bytes: Uint8Array): ReadonlyMap<number, number> {
  const decoder = decoding.createDecoder(bytes);
  const clocks = new Map<number, number>();
  for (let left = decoding.readVarUint(decoder); left > 0; left -= 1) {
    const client = decoding.readVarUint(decoder);
    clocks.set(client, decoding.readVarUint(decoder));
  }
  return clocks;
}

/** "This is how far I am: send me what I lack." */
export function step1Frame(stateVector: Uint8Array): Uint8Array {
  return syncFrame(step1, stateVector);
}

/** "This is what you lack." */
export function step2Frame(bytes: Uint8Array): Uint8Array {
  return syncFrame(step2, bytes);
}

/** "Somebody made this edit." */
export function updateFrame(bytes: Uint8Array): Uint8Array {
  return syncFrame(update, bytes);
}

/** "Who is present?" */
export const queryFrame: Uint8Array = new Uint8Array([queryAwareness]);

export type PresenceEntry = {
  readonly client: number;
  readonly clock: number;
  /** JSON; "null" = gone. */
  readonly state: string;
};

/** Presence of some clients; with none it says only that the line is alive. */
export function awarenessFrame(entries: readonly PresenceEntry[]): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, entries.length);
  for (const { client, clock, state } of entries) {
    encoding.writeVarUint(encoder, client);
    encoding.writeVarUint(encoder, clock);
    encoding.writeVarString(encoder, state);
  }
  const frame = encoding.createEncoder();
  encoding.writeVarUint(frame, awareness);
  encoding.writeVarUint8Array(frame, encoding.toUint8Array(encoder));
  return encoding.toUint8Array(frame);
}

function syncFrame(kind: number, bytes: Uint8Array): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, sync);
  encoding.writeVarUint(encoder, kind);
  encoding.writeVarUint8Array(encoder, bytes);
  return encoding.toUint8Array(encoder);
}
