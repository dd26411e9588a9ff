/** Which of the changes made here the server has not yet said to be on its disk. */

/** A change made here: the Yjs client that wrote it, and that client's clock right after it. */
export type Change = {
  readonly client: number;
  readonly clock: number;
  /**
   * The number of the frame that carried it over the present socket; undefined = not yet sent
   * there.
   */
  readonly frame: number | undefined;
};
/** A Yjs state vector: how many items of each client are there. */
export type StateVector = ReadonlyMap<number, number>;

/**
 * Beyond this many the oldest are no longer counted: whatever stores a later change stores them
 * too.
 */
export const changesMax = 2_000;

/** With one more change. */
export function withChange(changes: readonly Change[], change: Change): readonly Change[] {
  return [...changes, change].slice(-changesMax);
}

/**
 * A new socket carries nothing yet; and frames of the old one, up to one that the server left
 * aside, stand for nothing any more.
 */
export function unsent(
  changes: readonly Change[],
  last = Number.POSITIVE_INFINITY,
): readonly Change[] {
  return changes.map((change) => {
    return (change.frame ?? 0) <= last ? { ...change, frame: undefined } : change;
  });
}

/**
 * A frame went out that answers what the server lacks: it carries every change. Also those that had
 * been sent, for the server asks again when it could not place a frame, and counts that one as
 * decided.
 */
export function sentIn(changes: readonly Change[], frame: number): readonly Change[] {
  return changes.map((change) => ({ ...change, frame }));
}

/**
 * What remains when the server has decided on `decided` frames and stored everything up to a state
 * vector. Both are needed: a deletion leaves no trace in a vector, and a decided frame may have
 * been refused.
 */
export function notStored(
  changes: readonly Change[],
  stored: StateVector,
  decided: number,
): readonly Change[] {
  return changes.filter(
    ({ client, clock, frame }) =>
      frame === undefined || frame > decided || clock > (stored.get(client) ?? 0),
  );
}

/** Whether everything that one state vector counts is within another. */
export function isWithin(inner: StateVector, outer: StateVector): boolean {
  return [...inner].every(([client, clock]) => clock <= (outer.get(client) ?? 0));
}

/** As plain JSON: pairs of client and clock. */
export function encodeChanges(changes: readonly Change[]): unknown {
  return changes.map(({ client, clock }) => [client, clock]);
}

/** From JSON that this browser kept, none of it sent; anything else is undefined. */
export function decodeChanges(value: unknown): readonly Change[] | undefined {
  if (!Array.isArray(value) || !value.every(isPair)) return undefined;
  return value.map(([client, clock]) => ({ client, clock, frame: undefined }));
}

function isPair(value: unknown): value is [number, number] {
  return Array.isArray(value) && value.length === 2 && value.every(Number.isInteger);
}
