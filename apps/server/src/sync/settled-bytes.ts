/**
 * The part of a document that was merged, with what most of its readers are told of it. A page asks
 * every few seconds what it lacks, and mostly lacks nothing: that is answered from what was worked
 * out once.
 */
import * as Y from "yjs";

export class SettledBytes {
  readonly whole: Uint8Array;
  private clocks: ReadonlyMap<number, number> | undefined;
  private deletions: Uint8Array | undefined;

  /** Of one update without holes, which is copied, since it may be a view of something larger. */
  constructor(whole: Uint8Array) {
    this.whole = whole.slice();
  }

  /** What a holder of a state vector, given plain and encoded, lacks; deletions in full. */
  since(stateVector: ReadonlyMap<number, number>, encoded: Uint8Array): Uint8Array {
    this.clocks ??= Y.decodeStateVector(Y.encodeStateVectorFromUpdate(this.whole));
    if (lacks(stateVector, this.clocks)) return Y.diffUpdate(this.whole, encoded);
    this.deletions ??= Y.diffUpdate(this.whole, Y.encodeStateVector(new Map(this.clocks)));
    return this.deletions;
  }

  /** How many bytes that goes through. */
  costOf(stateVector: ReadonlyMap<number, number>): number {
    const { length } = this.whole;
    if (this.clocks === undefined) return 2 * length;
    return this.deletions === undefined || lacks(stateVector, this.clocks) ? length : 0;
  }
}

function lacks(has: ReadonlyMap<number, number>, clocks: ReadonlyMap<number, number>): boolean {
  for (const [client, clock] of clocks) if (clock > (has.get(client) ?? 0)) return true;
  return false;
}
