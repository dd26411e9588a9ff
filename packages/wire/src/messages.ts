/**
 * What we add to the y-websocket protocol: two messages from the server, and the codes that end a
 * socket for good.
 */
import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";

/**
 * Server to page: everything up to this state vector is on disk. Sent to sockets opened with
 * ?saved=1.
 */
export const savedMessage = 100;
/**
 * Server to page: an update was not taken, and why. The page's copy of this document has left the
 * agreed state.
 */
export const refusedMessage = 101;

/** Why an update was not taken. */
export const updateRefusals = [
  "not-yours", // no right to write this document
  "malformed",
  "too-large",
  "too-fast",
  "foreign-client", // written under another member's client id
  "document-full",
  "board-full", // its documents together
  "store-full", // the disk is full: keep the edit and send it again later
  "others-first", // it hangs on others' lost work: keep the edit, it is asked for again
] as const;
export type UpdateRefusal = (typeof updateRefusals)[number];

/** y-websocket treats 4400..4499 as final and tries again after any other. */
export const closeCode = {
  notMember: 4401,
  revoked: 4403,
  unknownDocument: 4404,
  /** The page keeps another history of the board than the store holds. */
  otherEpoch: 4410,
  /** The server can't read this document; it tries again after a while, or once it is mended. */
  unreadable: 4522,
  tooFast: 4529,
  wrongOrigin: 4418,
  /** The server stops, or the socket does not read: standard codes, so that the page comes back. */
  goingAway: 1001,
  tryLater: 1013,
} as const;

/**
 * The whole frame that says which state vector is durably stored, and how many of this socket's
 * update frames are decided: stored, known already, or refused in a frame before this one. A
 * deletion alone moves no state vector, so only the count tells that it is on disk.
 */
export function encodeSaved(stateVector: Uint8Array, decided: number): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, savedMessage);
  encoding.writeVarUint8Array(encoder, stateVector);
  encoding.writeVarUint(encoder, decided);
  return encoding.toUint8Array(encoder);
}

/** The state vector of a saved message whose number was already read. */
export function decodeSaved(decoder: decoding.Decoder): Uint8Array {
  return decoding.readVarUint8Array(decoder);
}

/**
 * How many of the update frames sent on this socket are decided; to be read after the state vector.
 */
export function decodeDecided(decoder: decoding.Decoder): number {
  return decoding.readVarUint(decoder);
}

/** Whether a frame that the page sends is one of those counted: sync step 2, or an update. */
export function carriesUpdate(frame: Uint8Array): boolean {
  return frame[0] === 0 && (frame[1] === 1 || frame[1] === 2);
}

/** The whole frame that refuses an update. */
export function encodeRefused(refusal: UpdateRefusal): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, refusedMessage);
  encoding.writeVarString(encoder, refusal);
  return encoding.toUint8Array(encoder);
}

/**
 * The reason in a refused message whose number was already read; an unknown one reads as malformed.
 */
export function decodeRefused(decoder: decoding.Decoder): UpdateRefusal {
  const read = decoding.readVarString(decoder);
  return updateRefusals.find((known) => known === read) ?? "malformed";
}
