/**
 * What a document is known to hold, without holding the document: how far each client got, and what
 * is deleted.
 */
import * as encoding from "lib0/encoding";
import type { DecodedUpdate, StructId } from "./decoded-update.ts";
import { addRanges, coversRange, type DeleteRanges, type Range } from "./delete-ranges.ts";

export class KnownState {
  /** By client id, the clock that its next struct will have. */
  readonly clocks = new Map<number, number>();
  private readonly deleted: DeleteRanges = new Map();

  /** The same again, growing on its own from here. */
  copy(): KnownState {
    const copy = new KnownState();
    for (const [client, clock] of this.clocks) copy.clocks.set(client, clock);
    for (const [client, ranges] of this.deleted) copy.deleted.set(client, [...ranges]);
    return copy;
  }

  clockOf(client: number): number {
    return this.clocks.get(client) ?? 0;
  }

  has({ client, clock }: StructId): boolean {
    return clock < this.clockOf(client);
  }

  hasDeleted(client: number, range: Range): boolean {
    return coversRange(this.deleted, client, range);
  }

  /** Takes in an update that fits: nothing in it starts beyond what is known. */
  add(update: DecodedUpdate): void {
    for (const [client, structs] of update.structs) {
      const end = structs.at(-1)?.end ?? 0;
      if (end > this.clockOf(client)) this.clocks.set(client, end);
    }
    const deletions = new Map<number, Range[]>();
    for (const { client, range } of update.deletions) {
      const ranges = deletions.get(client);
      if (ranges === undefined) deletions.set(client, [range]);
      else ranges.push(range);
    }
    for (const [client, ranges] of deletions) addRanges(this.deleted, client, ranges);
  }

  /** In the encoding of sync step 1. */
  stateVector(): Uint8Array {
    const encoder = encoding.createEncoder();
    encoding.writeVarUint(encoder, this.clocks.size);
    for (const [client, clock] of [...this.clocks].sort(([a], [b]) => b - a)) {
      encoding.writeVarUint(encoder, client);
      encoding.writeVarUint(encoder, clock);
    }
    return encoding.toUint8Array(encoder);
  }
}
