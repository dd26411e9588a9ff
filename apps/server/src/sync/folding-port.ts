/**
 * Where a document's rows are made into one, and its title is read: work that is too long for the
 * thread that serves.
 */

export type Folding = {
  /** All that the updates say, as one, read through before. Rejects with Unreadable. */
  merge(updates: readonly Uint8Array[]): Promise<Uint8Array>;
  /** The same without what was overwritten, checked against them. Rejects with Unreadable. */
  fold(updates: readonly Uint8Array[]): Promise<Uint8Array>;
  /** The title in a board document. Rejects with Unreadable. */
  title(updates: readonly Uint8Array[]): Promise<string>;
  /** Ends what is under way; whoever waits is rejected. */
  close(): Promise<void>;
};

export type FoldingKind = "merge" | "title" | "fold";

/** These updates make no whole document, or not within the bounds. Says nothing that was typed. */
export class Unreadable extends Error {
  override readonly name = "Unreadable";
}
