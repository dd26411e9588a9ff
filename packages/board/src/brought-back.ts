/** What Yjs made of something that was removed and brought back: to Yjs it is another item. */
import * as Y from "yjs";

/** The item that stands for this one today: itself, or the last that it was brought back as. */
export function itemNow(item: Y.Item, doc: Y.Doc): Y.Item {
  let last = item;
  while (last.redone !== null) {
    const next = Y.getItem(doc.store, last.redone);
    if (!(next instanceof Y.Item)) return last;
    last = next;
  }
  return last;
}

/** What an item lies in: as it was then, and each time that it was brought back since. */
export function parentsOf(item: Y.Item, doc: Y.Doc): readonly Y.AbstractType<unknown>[] {
  const { parent } = item;
  if (!(parent instanceof Y.AbstractType)) return [];
  const types: Y.AbstractType<unknown>[] = [parent];
  for (let holder = parent._item; holder?.redone; ) {
    const next = Y.getItem(doc.store, holder.redone);
    if (!(next instanceof Y.Item) || !(next.content instanceof Y.ContentType)) break;
    types.push(next.content.type);
    holder = next;
  }
  return types;
}
