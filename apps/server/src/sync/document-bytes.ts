/** A document as the updates that make it, merged without ever building it. */
import * as Y from "yjs";
import { UpdatePile } from "./update-pile.ts";

/** Merging costs more than in proportion to the number of updates, so it goes by groups. */
const groupMax = 64;

export class DocumentBytes {
  /** Bytes held: an upper bound of the document's size, since merging never adds. */
  size = 0;
  /** How many updates came in, merged or not: what stands in the log. */
  rows = 0;
  private pile = new UpdatePile();

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
    let updates = this.pile.updates();
    if (updates.length > 1) {
      while (updates.length > 1) updates = groups(updates).map(mergeGroup);
      this.pile = new UpdatePile();
      for (const whole of updates) this.pile.add(whole);
    }
    const [whole] = updates;
    this.size = whole?.length ?? 0;
    return whole ?? Y.mergeUpdates([]);
  }

  /** What a holder of this state vector lacks; deletions in full. */
  since(stateVector: ReadonlyMap<number, number>): Uint8Array {
    const whole = this.merged();
    return stateVector.size === 0
      ? whole
      : Y.diffUpdate(whole, Y.encodeStateVector(new Map(stateVector)));
  }
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
