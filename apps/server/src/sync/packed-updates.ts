/** Many updates in one piece of memory, which goes to another thread without being copied. */

export type PackedUpdates = {
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Where each ends. */
  readonly ends: Uint32Array<ArrayBuffer>;
};

/** The updates one behind the other; what they lay in before stays as it is. */
export function packed(updates: readonly Uint8Array[]): PackedUpdates {
  const ends = new Uint32Array(updates.length);
  const bytes = new Uint8Array(updates.reduce((sum, { length }) => sum + length, 0));
  let end = 0;
  for (const [i, update] of updates.entries()) {
    bytes.set(update, end);
    end += update.length;
    ends[i] = end;
  }
  return { bytes, ends };
}

/** The updates again, as views of the same memory. */
export function unpacked({ bytes, ends }: PackedUpdates): readonly Uint8Array[] {
  return [...ends].map((end, i) => bytes.subarray(ends[i - 1] ?? 0, end));
}
