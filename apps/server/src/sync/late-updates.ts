/**
 * Updates that can't be taken as far as this node has read the log, and perhaps can once it has
 * read on: what they follow, or the right to write them, may have come in over another node.
 */
import { lateBytesMax, unsavedBytesMax } from "@halflap/wire/limits";
import type { Admission } from "./admission.ts";
import type { ClientFrame } from "./frames.ts";
import type { Seat } from "./seat.ts";

export type UpdateFrame = Extract<ClientFrame, { kind: "update" }>;

/** An update on its way through a room. */
export type Coming = {
  readonly seat: Seat;
  readonly frame: UpdateFrame;
  /** Which of the seat's update frames it is, counted from 1. */
  readonly number: number;
  /** Since when it waits for the room to have read on, in ms; undefined = it does not. */
  readonly lateSince: number | undefined;
};

/** What waits in all rooms together, in bytes; one for the process. */
export class LateBytes {
  held = 0;

  hasRoomFor(bytes: number): boolean {
    return this.held + bytes <= lateBytesMax;
  }
}

type Waiting = { readonly coming: Coming; readonly nth: number };

/** A room's, oldest first. */
export class LateUpdates {
  private waiting: Waiting[] = [];
  private bytes = 0;
  private added = 0;
  private readonly all: LateBytes;

  constructor(all: LateBytes) {
    this.all = all;
  }

  /** Behind the last one that waits, or waited. */
  get mark(): number {
    return this.added;
  }

  /** Lets one wait; false when too much waits already, here or in all rooms together. */
  add(coming: Coming): boolean {
    const taken = takenBy(coming);
    if (this.bytes + taken > unsavedBytesMax || !this.all.hasRoomFor(taken)) return false;
    // Copied: what came with it in one piece of memory must not wait too.
    const update = coming.frame.update.slice();
    const kept = { ...coming, frame: { ...coming.frame, update, whole: undefined } };
    this.added += 1;
    this.waiting.push({ coming: kept, nth: this.added });
    this.count(taken);
    return true;
  }

  /** Those before a mark, which wait no longer. */
  takeUpTo(mark: number): readonly Coming[] {
    return this.takeWhere(({ nth }) => nth <= mark);
  }

  /** Lets go what a seat that has left sent. */
  forget(seat: Seat): void {
    this.takeWhere(({ coming }) => coming.seat === seat);
  }

  private takeWhere(isTaken: (one: Waiting) => boolean): readonly Coming[] {
    const taken = this.waiting.filter(isTaken).map(({ coming }) => coming);
    if (taken.length > 0) this.waiting = this.waiting.filter((one) => !isTaken(one));
    for (const one of taken) this.count(-takenBy(one));
    return taken;
  }

  private count(bytes: number): void {
    this.bytes += bytes;
    this.all.held += bytes;
  }
}

/** Bytes that one takes up, about: the smallest edit by itself some seven hundred. */
function takenBy({ frame }: Coming): number {
  return frame.update.length + 1024;
}

/** Whether rows that other nodes wrote could make an admission another one. */
export function hangsOnOthers(admission: Admission): boolean {
  if (admission.kind !== "refused") return admission.kind !== "new" && admission.kind !== "known";
  return admission.refusal === "foreign-client" || admission.refusal === "not-yours";
}
