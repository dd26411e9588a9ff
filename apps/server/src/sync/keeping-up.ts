/**
 * Seats that read more slowly than the room writes: what others say is left out for them, and they
 * are brought up to date in one piece when they have read.
 */
import * as Y from "yjs";
import { step2Frame, updateFrame } from "./frames.ts";
import type { HeldDocument } from "./held-document.ts";
import type { Presences } from "./presences.ts";
import type { Seat } from "./seat.ts";

/** Sends a frame to everybody but one who keeps up; the document holds what is in it. */
export function passToAll(
  seats: Iterable<Seat>,
  except: Seat | undefined,
  frame: Uint8Array,
  held: HeldDocument,
): void {
  for (const seat of seats) if (seat !== except) seat.passOn(frame, () => onDisk(held));
}

/** Answers step 1, one answer at a time: whoever is behind gets it with what they missed. */
export function answerStep1(
  seat: Seat,
  has: ReadonlyMap<number, number>,
  held: HeldDocument,
): void {
  if (seat.behindFrom !== undefined) seat.behindFrom = has;
  else {
    seat.passOn(step2Frame(held.bytes.since(has)), () => onDisk(held));
    // What was passed on and is not there yet went out before this seat could hear it.
    for (const update of held.underway) seat.passOn(updateFrame(update), () => onDisk(held));
  }
}

/** Brings a seat up to date that was behind and has read. */
export function catchUp(seat: Seat, held: HeldDocument, presences: Presences): void {
  const has = seat.behindFrom;
  if (has === undefined || !seat.hasRead) return;
  seat.behindFrom = undefined;
  answerStep1(seat, has, held);
  seat.passOn(presences.frame(), () => onDisk(held));
}

function onDisk(held: HeldDocument): ReadonlyMap<number, number> {
  return Y.decodeStateVector(held.durableVector());
}
