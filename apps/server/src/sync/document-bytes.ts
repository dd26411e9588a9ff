/** A document as the updates that make it, merged without ever building it. */
import * as Y from "yjs";
import { SettledBytes } from "./settled-bytes.ts";
import { UpdatePile } from "./update-pile.ts";

/** Merging costs more than in proportion to the number of updates, so it goes by groups. */
const groupMax = 64;
/** What is smaller is merged and searched whenever somebody asks. */
const smallBytesMax = 2048;
/** Updates that came since the rest was merged; with more of them all is merged again. */
const freshMax = 64;

export class DocumentBytes {
  /** Bytes held: an upper bound of the document's size, since merging never adds. */
  size = 0;
  /** How many updates came in, merged or not: what stands in the log. */
  rows = 0;
  /** All of a small document, and of a large one what came since the rest was merged. */
  private pile = new UpdatePile();
  private settled: SettledBytes | undefined;

  constructor(updates: readonly Uint8Array[]) {
    for (const update of updates) this.add(update);
  }

  add(update: Uint8Array): void {
    this.pile.add(update);
    this.size += update.length;
    this.rows += 1;
  }

  /** The whole document as one update. */
  merged(): Uint8Array {
    if (this.settled !== undefined && this.pile.count === 0) return this.settled.whole;
    const fresh = this.pile.updates();
    const updates = this.settled === undefined ? fresh : [this.settled.whole, ...fresh];
    const [first] = updates;
    const whole = updates.length > 1 ? mergedByGroups(updates) : first;
    this.size = whole?.length ?? 0;
    if (whole === undefined) return Y.mergeUpdates([]);
    if (updates.length > 1 || whole.length > smallBytesMax) this.settle(whole);
    return whole;
  }

  /** What a holder of this state vector lacks; deletions in full. */
  since(stateVector: ReadonlyMap<number, number>): Uint8Array {
    if (stateVector.size === 0) return this.merged();
    if (this.settled === undefined || this.pile.count > freshMax) this.merged();
    const has = Y.encodeStateVector(new Map(stateVector));
    if (this.settled === undefined) return Y.diffUpdate(this.merged(), has);
    const lacks = this.settled.since(stateVector, has);
    if (this.pile.count === 0) return lacks;
    const fresh = Y.diffUpdate(mergedByGroups(this.pile.updates()), has);
    return Y.mergeUpdates([lacks, fresh]);
  }

  /** About how many bytes `since` goes through, to search or to merge them. */
  costOf(stateVector: ReadonlyMap<number, number>): number {
    const pieces = this.pile.count + (this.settled === undefined ? 0 : 1);
    if (stateVector.size === 0) return pieces > 1 ? this.size : 0;
    if (this.size <= smallBytesMax) return this.size;
    if (this.settled === undefined || this.pile.count > freshMax) return 3 * this.size;
    return this.settled.costOf(stateVector) + this.size - this.settled.whole.length;
  }

  private settle(whole: Uint8Array): void {
    const isSmall = whole.length <= smallBytesMax;
    this.settled = isSmall ? undefined : new SettledBytes(whole);
    this.pile = new UpdatePile();
    if (isSmall) this.pile.add(whole);
  }
}

function mergedByGroups(all: readonly Uint8Array[]): Uint8Array {
  let updates = all;
  while (updates.length > 1) updates = groups(updates).map(mergeGroup);
  return updates[0] ?? Y.mergeUpdates([]);
}

function groups(updates: readonly Uint8Array[]): readonly (readonly Uint8Array[])[] {
  const starts = Array.from(
    { length: Math.ceil(updates.length / groupMax) },
    (_, i) => i * groupMax,
  );
  return starts.map((start) => updates.slice(start, start + groupMax));
}

function mergeGroup(group: readonly Uint8Array[]): Uint8Array {
  return Y.mergeUpdates([...group]);
}
