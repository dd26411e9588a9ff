/** What a node tells the others of playing together: the last word it knows, and who hears it. */
import { decodeTogetherTold, encodeTogetherTold, type Told } from "@halflap/wire/together";
import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";

/** One more number than pages know: no page may say it. */
export const runMessage = 106;

export type Run = {
  /** Whose it is: another number for each node's room; 1 or more. */
  readonly node: number;
  /** The time that the nodes share when it was passed, in ms; whole. */
  readonly sentMs: number;
  /** The highest that was ever heard of, also when nothing is played any more. */
  readonly revision: number;
  readonly told: Told;
  /** How long ago the word was said, in ms; whole. */
  readonly ageMs: number;
  /** Whether somebody at this node hears it. */
  readonly isAlong: boolean;
};

/** The whole frame. */
export function encodeRun({ node, sentMs, revision, told, ageMs, isAlong }: Run): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, runMessage);
  encoding.writeVarUint(encoder, node);
  encoding.writeVarUint(encoder, Math.max(0, Math.round(sentMs)));
  encoding.writeVarUint(encoder, revision);
  encoding.writeVarUint(encoder, Math.max(0, Math.round(ageMs)));
  encoding.writeVarUint(encoder, isAlong ? 1 : 0);
  encoding.writeUint8Array(encoder, encodeTogetherTold(told));
  return encoding.toUint8Array(encoder);
}

/** The run in a frame; undefined when it is another frame, or none. */
export function decodeRun(frame: Uint8Array): Run | undefined {
  try {
    const decoder = decoding.createDecoder(frame);
    if (decoding.readVarUint(decoder) !== runMessage) return undefined;
    const node = decoding.readVarUint(decoder);
    const sentMs = decoding.readVarUint(decoder);
    const revision = decoding.readVarUint(decoder);
    const ageMs = decoding.readVarUint(decoder);
    const isAlong = decoding.readVarUint(decoder) === 1;
    decoding.readVarUint(decoder); // the number of what is told
    const told = decodeTogetherTold(decoder);
    if (told === undefined || decoding.hasContent(decoder)) return undefined;
    return { node, sentMs, revision, told, ageMs, isAlong };
  } catch {
    return undefined; // lib0 throws at the end of the bytes
  }
}
