/**
 * What a document is known to hold, without holding the document: how far each client got, and what
 * is deleted.
 */
import * as encoding from "lib0/encoding";
import type { DecodedUpdate, StructId } from "./decoded-update.ts";
import {
  addRange,
  addRanges,
  coversRange,
  type DeleteRanges,
  type Range,
} from "./delete-ranges.ts";
import { placesAll } from "./placing.ts";
import { TypeDepths } from "./type-depths.ts";

export class KnownState {
  /** By client id, the clock that its next struct will have. */
  readonly clocks = new Map<number, number>();
  /** How deep its content lies; one for a state and its copies, since both say the same of it. */
  readonly depths: TypeDepths;
  private readonly deleted: DeleteRanges = new Map();

  constructor(depths = new TypeDepths()) {
    this.depths = depths;
  }

  /** The same again, growing on its own from here; what others knew beyond it is forgotten. */
  copy(): KnownState {
    this.depths.forgetBeyond((client) => this.clockOf(client));
    const copy = new KnownState(this.depths);
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
    this.noteDepths(update);
    for (const [client, structs] of update.structs) {
      const end = structs.at(-1)?.end ?? 0;
      if (end > this.clockOf(client)) this.clocks.set(client, end);
    }
    const [one, another] = update.deletions;
    if (one !== undefined && another === undefined) {
      addRange(this.deleted, one.client, one.range);
      return;
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

  private noteDepths(update: DecodedUpdate): void {
    for (const [client, structs] of update.structs) {
      if (this.depths.reaches(client, structs.at(-1)?.end ?? 0)) continue;
      placesAll(update, this, (struct) => this.depths.note(struct));
      return;
    }
  }
}
