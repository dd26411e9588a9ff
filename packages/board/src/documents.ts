/** The four Yjs documents that make one board, and the names they have on the wire and on disk. */
import * as Y from "yjs";
import type { LaneId } from "./board.ts";

export const documentNames = ["board", "lane-upper", "lane-lower", "talk"] as const;
export type DocumentName = (typeof documentNames)[number];

/** One Y.Doc a name. */
export type BoardDocuments = Readonly<Record<DocumentName, Y.Doc>>;

/** Every local edit is made under this origin; undo follows it and nothing else. */
export const ownEdit = "own-edit";

/** The document that holds a lane. */
export function laneDocument(lane: LaneId): "lane-upper" | "lane-lower" {
  return `lane-${lane}`;
}

/** Whether an untrusted text names one of the four documents. */
export function isDocumentName(text: string): text is DocumentName {
  return (documentNames as readonly string[]).includes(text);
}

/** Four documents with nothing in them. */
export function emptyDocuments(): BoardDocuments {
  return {
    board: new Y.Doc(),
    "lane-upper": new Y.Doc(),
    "lane-lower": new Y.Doc(),
    talk: new Y.Doc(),
  };
}

/** Makes one change of one's own: a single transaction, seen by undo. */
export function editOwn(doc: Y.Doc, change: () => void): void {
  doc.transact(change, ownEdit);
}
