/**
 * What crosses from node to node while pages of one board sit at several: frames that no store
 * keeps or that the store will tell later. Each may be lost, doubled or late, and no harm is done;
 * that they are true is taken on trust, as the store is.
 */
import { isDocumentName } from "@halflap/board/documents";
import type { NodesApart } from "@halflap/wire/together";
import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import type { DocumentKey } from "../store/log-port.ts";
import { decodeBoardId } from "../store/secret.ts";

/** A frame of the protocol of W2, as a room tells it to its own pages. */
export type Crossed = { readonly key: DocumentKey; readonly frame: Uint8Array };

/** The time by which nodes tell each other moments, as one of them knows it. */
export type SharedTime = {
  readonly ms: number;
  /** Another one is another time: moments told in the last one mean nothing any more. */
  readonly era: number;
  /** How well it is shared; undefined where nobody shares it. */
  readonly nodes: NodesApart | undefined;
};

export type Crossing = {
  time(): SharedTime;
  /** Passes a frame to all other nodes. Returns at once, and never fails. */
  cross(crossed: Crossed): void;
  /** Whom to tell from here on what other nodes passed. */
  hearCrossed(listener: (crossed: Crossed) => void): void;
};

/** The time of a process by itself: it never goes back, and begins anywhere. */
export function ownTime(): SharedTime {
  return { ms: performance.now(), era: 0, nodes: undefined };
}

/** Larger frames come by the store alone. */
export const crossingBytesMax = 64 * 1024;

/** A frame as bytes, under the name of the node that passes it. */
export function encodeCrossed(node: string, { key, frame }: Crossed): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarString(encoder, node);
  encoding.writeVarString(encoder, key.board);
  encoding.writeVarString(encoder, key.document);
  encoding.writeUint8Array(encoder, frame);
  return encoding.toUint8Array(encoder);
}

/** The frame in bytes from outside; undefined when it is none, or this node's own. */
export function decodeCrossed(node: string, bytes: Uint8Array): Crossed | undefined {
  try {
    const decoder = decoding.createDecoder(bytes);
    if (decoding.readVarString(decoder) === node) return undefined;
    const board = decodeBoardId(decoding.readVarString(decoder));
    const document = decoding.readVarString(decoder);
    const frame = decoding.readTailAsUint8Array(decoder);
    if (board === undefined || !isDocumentName(document)) return undefined;
    return { key: { board, document }, frame };
  } catch {
    return undefined; // lib0 throws at the end of the bytes
  }
}
