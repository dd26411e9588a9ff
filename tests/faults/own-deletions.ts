/**
 * Deletions that a page made alone, until it takes them for saved. They move no clock, so a page
 * has only its frames to tell by, as in apps/web/src/session/unsaved.ts.
 */
import * as Y from "yjs";
import type { Chance } from "../support/seeded.ts";

/** Which clocks of which client are deleted; the end is not included. */
export type Deleted = {
  readonly client: number;
  readonly start: number;
  readonly end: number;
};

/** Where a page's own content ends, and the frame that carries a deletion; undefined = unsent. */
type Carried = {
  readonly client: number;
  readonly end: number;
  readonly frame: number | undefined;
};

/** One for a page, over all its lines. */
export class OwnDeletions {
  private readonly waiting = new Map<string, Carried>();
  private lastAnswer = 0;

  /** How many are not said to be saved. */
  get count(): number {
    return this.waiting.size;
  }

  add(name: string, carried: Carried): void {
    this.waiting.set(name, carried);
  }

  /** A frame went out that says all that the server lacks. */
  onAnswered(frame: number): void {
    this.lastAnswer = frame;
    for (const [name, carried] of this.waiting) this.waiting.set(name, { ...carried, frame });
  }

  /** What was sent counts for nothing any more. */
  onUnsent(): void {
    this.forgetFrames(Number.POSITIVE_INFINITY);
  }

  /** The server left the last answer aside. */
  onLeftAside(): void {
    this.forgetFrames(this.lastAnswer);
  }

  /** Takes for saved what is decided and whose page has all else saved; their names. */
  onSaved(clocks: ReadonlyMap<number, number>, decided: number): readonly string[] {
    const saved = [...this.waiting].filter(
      ([, { client, end, frame }]) =>
        frame !== undefined && frame <= decided && end <= (clocks.get(client) ?? 0),
    );
    for (const [name] of saved) this.waiting.delete(name);
    return saved.map(([name]) => name);
  }

  private forgetFrames(last: number): void {
    for (const [name, carried] of this.waiting) {
      if ((carried.frame ?? 0) > last) continue;
      this.waiting.set(name, { ...carried, frame: undefined });
    }
  }
}

/** Deletes a letter or a key, if there is one, and writes nothing; what that deleted. */
export function deleteSomething(doc: Y.Doc, chance: Chance): readonly Deleted[] {
  const words = doc.getText("words");
  let deleted: readonly Deleted[] = [];
  doc.once("afterTransaction", (made: Y.Transaction) => {
    deleted = deletedIn(made);
  });
  doc.transact(() => {
    if (words.length > 0 && chance.happens(0.7)) words.delete(chance.below(words.length), 1);
    else doc.getMap("keys").delete(`k${chance.below(4)}`);
  });
  return deleted;
}

/** What a transaction deleted. */
export function deletedIn({ deleteSet }: Y.Transaction): readonly Deleted[] {
  return [...deleteSet.clients].flatMap(([client, items]) =>
    items.map(({ clock, len }) => ({ client, start: clock, end: clock + len })),
  );
}

/** Whether all of it is deleted in a document. */
export function isDeletedIn(doc: Y.Doc, deleted: readonly Deleted[]): boolean {
  const { ds } = Y.snapshot(doc);
  return deleted.every(({ client, start, end }) => {
    for (let clock = start; clock < end; clock += 1) {
      if (!Y.isDeleted(ds, Y.createID(client, clock))) return false;
    }
    return true;
  });
}
