/** What a store says of its documents' sizes, as the people port tells it. */
import { type DocumentName, isDocumentName } from "@halflap/board/documents";

/** Bytes by document; rows of names that no board has are left out. */
export function bytesByDocument(
  rows: readonly { readonly name: string; readonly bytes: number }[],
): ReadonlyMap<DocumentName, number> {
  return new Map(
    rows.flatMap(({ name, bytes }) => (isDocumentName(name) ? [[name, bytes] as const] : [])),
  );
}
