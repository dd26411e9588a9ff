/**
 * Updates that can't be taken as far as this node has read the log, and perhaps can once it has
 * read on: what they follow, or the right to write them, may have come in over another node.
 */
import { unsavedBytesMax } from "@halflap/wire/limits";
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

/** A room's, oldest first. */
export class LateUpdates {
  private readonly waiting: Coming[] = [];
  private bytes = 0;

  get count(): number {
    return this.waiting.length;
  }

  /** Lets one wait; false when too much waits already. */
  add(coming: Coming): boolean {
    const taken = takenBy(coming);
    if (this.bytes + taken > unsavedBytesMax) return false;
    // Copied: what came with it in one piece of memory must not wait too.
    const update = coming.frame.update.slice();
    this.waiting.push({ ...coming, frame: { ...coming.frame, update, whole: undefined } });
    this.bytes += taken;
    return true;
  }

  /** The first so many, which wait no longer. */
  takeFirst(count: number): readonly Coming[] {
    const taken = this.waiting.splice(0, count);
    for (const one of taken) this.bytes -= takenBy(one);
    return taken;
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
