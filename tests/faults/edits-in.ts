/** Which edits of a run an update brings: each wrote its own name into the order, once. */
import * as Y from "yjs";

const edit = /^edit-/;

/** A name that no other edit of any run has; `number` tells those of one page apart. */
export function editName(page: string, number: number): string {
  return `edit-${page}-${number}`;
}

/** A name that no other deletion of any run has, likewise. */
export function deletionName(page: string, number: number): string {
  return `deletion-${page}-${number}`;
}

/** The names in an update, also of edits that it repeats. */
export function editsIn(update: Uint8Array): readonly string[] {
  return Y.decodeUpdate(update).structs.flatMap((struct) =>
    struct instanceof Y.Item && struct.content instanceof Y.ContentAny
      ? struct.content.arr.filter((value) => typeof value === "string" && edit.test(value))
      : [],
  );
}

/** The names in a document, as often as each stands there. */
export function editsOf(doc: Y.Doc): readonly string[] {
  return doc.getArray<string>("order").toArray();
}
