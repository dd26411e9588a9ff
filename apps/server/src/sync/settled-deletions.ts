/**
 * Deletions that are nobody's edit. Of two values of one key that were set at once, neither update
 * deletes the other: each page does, by itself, and says so when it is asked what it has.
 */
import * as Y from "yjs";
import { type DecodedUpdate, decodeUpdate } from "./decoded-update.ts";
import { addRanges, coversRange, type DeleteRanges } from "./delete-ranges.ts";
import type { DocumentBytes } from "./document-bytes.ts";

/** Only a document tells, and it is built once in so long at most, whoever asks. */
export const builtEveryMs = 1_000;
/** Documents with more bytes are not built on the thread that serves. */
export const builtBytesMax = 256 * 1024;

/** One for each room: what of its document was found to be deleted by nobody. */
export class SettledDeletions {
  private readonly deleted: DeleteRanges = new Map();
  private builtAt = Number.NEGATIVE_INFINITY;

  /**
   * Whether whoever holds these bytes has deleted all of this without anybody's doing. False also
   * where it is not found out; `now` is in ms.
   */
  covers(deletions: DecodedUpdate["deletions"], bytes: DocumentBytes, now: number): boolean {
    if (this.hasAll(deletions)) return true;
    if (bytes.size > builtBytesMax || now - this.builtAt < builtEveryMs) return false;
    this.builtAt = now;
    this.build(bytes.merged());
    return this.hasAll(deletions);
  }

  private hasAll(deletions: DecodedUpdate["deletions"]): boolean {
    return deletions.every(({ client, range }) => coversRange(this.deleted, client, range));
  }

  private build(update: Uint8Array): void {
    const doc = new Y.Doc();
    Y.applyUpdate(doc, update);
    const built = decodeUpdate(Y.encodeStateAsUpdate(doc));
    doc.destroy();
    for (const { client, range } of built?.deletions ?? []) {
      addRanges(this.deleted, client, [range]);
    }
  }
}
