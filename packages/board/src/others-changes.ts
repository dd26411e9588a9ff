/**
 * What others changed in a document while there are own steps to take back: which entry of which
 * map, which value of which list, and when, counted in their changes.
 */
import type * as Y from "yjs";
import { parentsOf } from "./brought-back.ts";
import { fieldOf } from "./decode.ts";

type Origin = Y.Transaction["origin"];

export class OthersChanges {
  /** Rises with each change of somebody else's. */
  now = 0;
  private readonly doc: Y.Doc;
  private readonly changes = new Map<unknown, Map<string, number>>();
  private readonly listen: (transaction: Y.Transaction) => void;

  /** Follows a document; nothing is noted while nobody `needs` it. */
  constructor(doc: Y.Doc, isOwn: (origin: Origin) => boolean, needs: () => boolean) {
    this.doc = doc;
    this.listen = (transaction) => {
      if (isOwn(transaction.origin) || transaction.changed.size === 0) return;
      if (needs()) this.note(transaction);
      else this.changes.clear();
    };
    doc.on("afterTransaction", this.listen);
  }

  /** Whether somebody else changed what a part of an item stands for, later than a moment. */
  changedSince(item: Y.Item, part: number, moment: number): boolean {
    const place = placeOf(item, part);
    return parentsOf(item, this.doc).some(
      (parent) => (this.changes.get(parent)?.get(place) ?? 0) > moment,
    );
  }

  /** Whether something that somebody else put into a list, or moved in it, stands there. */
  standsIn(list: Y.Array<unknown>): boolean {
    const changed = this.changes.get(list);
    return changed !== undefined && list.toArray().some((each) => changed.has(value(each)));
  }

  close(): void {
    this.doc.off("afterTransaction", this.listen);
    this.changes.clear();
  }

  private note({ changed, changedParentTypes }: Y.Transaction): void {
    this.now += 1;
    for (const [type, keys] of changed) {
      const noted = this.changes.get(type) ?? new Map<string, number>();
      this.changes.set(type, noted);
      for (const key of keys) if (key !== null) noted.set(entry(key), this.now);
      for (const event of changedParentTypes.get(type) ?? []) {
        if (event.target !== type || !keys.has(null)) continue;
        for (const item of [...event.changes.added, ...event.changes.deleted]) {
          for (const each of item.content.getContent()) noted.set(value(each), this.now);
        }
      }
    }
  }
}

/** What a part of an item stands for, among all that its parent holds. */
export function placeOf(item: Y.Item, part: number): string {
  return item.parentSub === null ? partOf(item, part) : entry(item.parentSub);
}

function entry(key: string): string {
  return `entry ${key}`;
}

/** A thing that has an id stands for the same whatever is said of it. */
function value(each: unknown): string {
  return `value ${JSON.stringify(fieldOf(each, "id") ?? each)}`;
}

function partOf(item: Y.Item, part: number): string {
  return value(item.content.getContent()[part]);
}
