/** A document as the updates that make it, merged without ever building it. */
import * as Y from "yjs";

/** Merging costs more than in proportion to the number of updates, so it goes by groups. */
const groupMax = 64;

export class DocumentBytes {
  /** Bytes held: an upper bound of the document's size, since merging never adds. */
  size = 0;
  /** How many updates came in, merged or not: what stands in the log. */
  rows = 0;
  private updates: Uint8Array[] = [];

  constructor(updates: readonly Uint8Array[]) {
    for (const update of updates) this.add(update);
  }

  add(update: Uint8Array): void {
    this.updates.push(update);
    this.size += update.length;
    this.rows += 1;
  }

  /** The whole document as one update. */
  merged(): Uint8Array {
    while (this.updates.length > 1) this.updates = groups(this.updates).map(mergeGroup);
    const [whole] = this.updates;
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
