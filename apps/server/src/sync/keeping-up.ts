/**
 * Seats that read more slowly than the room writes, or ask for more than can be worked out: what
 * others say is left out for them, and they are brought up to date in one piece later.
 */
import { searchedBytesLarge } from "@halflap/wire/limits";
import * as Y from "yjs";
import { step2Frame, updateFrame } from "./frames.ts";
import type { HeldDocument } from "./held-document.ts";
import type { Presences } from "./presences.ts";
import type { Searches } from "./searches.ts";
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

/** What seats are told of. */
export type Told = {
  readonly held: HeldDocument;
  readonly presences: Presences;
  readonly searches: Searches;
};

/**
 * Answers step 1, one answer at a time: whoever is behind gets it with what they missed, and so
 * does whoever asks for more than may be searched now.
 */
export function answerStep1(seat: Seat, has: ReadonlyMap<number, number>, told: Told): void {
  const isNow = seat.behindFrom === undefined && maySearch(seat, has, told);
  if (isNow) answer(seat, has, told.held);
  else seat.behindFrom = has;
}

/** Brings a seat up to date that was behind and has read, if so much may be searched now. */
export function catchUp(seat: Seat, told: Told): void {
  const has = seat.behindFrom;
  if (has === undefined || !seat.hasRead || !maySearch(seat, has, told)) return;
  seat.behindFrom = undefined;
  answer(seat, has, told.held);
  seat.passOn(told.presences.frame(), () => onDisk(told.held));
}

function maySearch(seat: Seat, has: ReadonlyMap<number, number>, told: Told): boolean {
  const bytes = told.held.bytes.costOf(has);
  if (bytes > searchedBytesLarge && !seat.maySearch()) return false;
  return told.searches.take(bytes, seat.now(), seat.behindFrom !== undefined);
}

function answer(seat: Seat, has: ReadonlyMap<number, number>, held: HeldDocument): void {
  seat.passOn(step2Frame(held.bytes.since(has)), () => onDisk(held));
  // What was passed on and is not there yet went out before this seat could hear it.
  for (const update of held.underway) seat.passOn(updateFrame(update), () => onDisk(held));
}

function onDisk(held: HeldDocument): ReadonlyMap<number, number> {
  return Y.decodeStateVector(held.durableVector());
}
