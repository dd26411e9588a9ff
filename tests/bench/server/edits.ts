/** The edits that a load sends, made beforehand: one short value in a map, about 46 bytes. */
import * as encoding from "lib0/encoding";
import * as Y from "yjs";
import { largeBytes } from "./rooms.ts";

/** Slots that somebody goes over again and again. */
const keys = 16;

/** Whole frames of one writer, each the next edit of a document of their own. */
export function editFrames(count: number): readonly Uint8Array[] {
  const doc = new Y.Doc();
  const frames: Uint8Array[] = [];
  doc.on("update", (update: Uint8Array) => frames.push(frameOf(update)));
  const map = doc.getMap("grips");
  for (let i = 0; i < count; i += 1) map.set(`slot-${i % keys}`, `x-x-${i % 9}-2-4-x`);
  return frames;
}

/** A document as large as that of a full board: one update, and edits made since. */
export function largeUpdates(): readonly Uint8Array[] {
  const doc = new Y.Doc();
  const map = doc.getMap("grips");
  const set = (i: number) => map.set(`slot-${`${i}`.padStart(8, "0")}`, `x-x-${i % 9}-2-4-x-${i}`);
  const bytesOfOne = 46;
  const last = largeBytes / bytesOfOne;
  doc.transact(() => {
    for (let i = editsSinceFolding; i < last; i += 1) set(i);
  });
  const updates = [Y.encodeStateAsUpdate(doc)];
  doc.on("update", (update: Uint8Array) => updates.push(update));
  for (let i = 0; i < editsSinceFolding; i += 1) set(i);
  return updates;
}

/** Rows that a log has grown by since it was folded; at 500 it is folded again. */
const editsSinceFolding = 400;

/** "Send me all there is." */
export const askForAll: Uint8Array = new Uint8Array([0, 0, 1, 0]);

function frameOf(update: Uint8Array): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, 0);
  encoding.writeVarUint(encoder, 2);
  encoding.writeVarUint8Array(encoder, update);
  return encoding.toUint8Array(encoder);
}
