/**
 * What is too large for one frame goes out in pieces, each once the server has decided on the one
 * before: after a long time offline a page may have more to say than a frame holds.
 */
import { piecesOf } from "@halflap/board/update-pieces";
import { clientsPerUpdateMax, frameBytesMax, updateBytesMax } from "@halflap/wire/limits";
import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";

export type LongFrames = {
  /**
   * Takes over a frame with an update that the server would not take whole; false when it can be
   * sent as it is. An answer says all, so whatever waited before it is dropped.
   */
  takesOver(frame: Uint8Array): boolean;
  /** The server has decided on so many update frames of this socket. */
  onDecided(decided: number): void;
  /** The socket is another one. */
  drop(): void;
};

export type LongFramesPorts = {
  /** Sends a frame; returns its number among those with updates on this socket. */
  send(frame: Uint8Array): number;
  /** All that the server lacks is on its way in pieces, and not all of it out yet. */
  onBegun(): void;
  /** The last piece of an answer went out under this number. */
  onAnswered(frame: number): void;
  /** A single thing in it is larger than the server takes. */
  onTooLarge(): void;
};

const sync = 0;
const answer = 1;
const edit = 2;
const limits = { bytesMax: updateBytesMax, authorsMax: clientsPerUpdateMax };

/** Nothing waits yet. */
export function makeLongFrames(ports: LongFramesPorts): LongFrames {
  let waiting: readonly Uint8Array[] = [];
  let isAnswer = false;
  let sent = 0;

  const sendNext = () => {
    const [piece, ...rest] = waiting;
    if (piece === undefined) return;
    waiting = rest;
    sent = ports.send(frameOf(piece));
    if (rest.length > 0 || !isAnswer) return;
    isAnswer = false;
    ports.onAnswered(sent);
  };
  return {
    takesOver(frame) {
      if (frame[0] !== sync || (frame[1] !== answer && frame[1] !== edit)) return false;
      if (frame[1] === answer) {
        waiting = [];
        isAnswer = !isFine(frame);
      }
      if (isFine(frame)) return false;
      const pieces = piecesOf(updateIn(frame), limits);
      if (pieces === undefined) {
        ports.onTooLarge();
        return true;
      }
      const isFirst = waiting.length === 0;
      waiting = [...waiting, ...pieces];
      if (frame[1] === answer) ports.onBegun();
      if (isFirst) sendNext();
      return true;
    },
    onDecided(decided) {
      if (waiting.length > 0 && decided >= sent) sendNext();
    },
    drop() {
      waiting = [];
      isAnswer = false;
    },
  };
}

function isFine(frame: Uint8Array): boolean {
  const bytesMax = frame[1] === answer ? frameBytesMax : updateBytesMax;
  return frame.length <= bytesMax && authorsOf(frame) <= clientsPerUpdateMax;
}

function updateIn(frame: Uint8Array): Uint8Array {
  return decoding.readVarUint8Array(decoding.createDecoder(frame.subarray(2)));
}

/** An update begins with the number of authors of what it brings. */
function authorsOf(frame: Uint8Array): number {
  const decoder = decoding.createDecoder(frame.subarray(2));
  decoding.readVarUint(decoder);
  return decoding.readVarUint(decoder);
}

function frameOf(update: Uint8Array): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, sync);
  encoding.writeVarUint(encoder, edit);
  encoding.writeVarUint8Array(encoder, update);
  return encoding.toUint8Array(encoder);
}
