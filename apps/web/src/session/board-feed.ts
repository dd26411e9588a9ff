/** Feeds a copy of the board elsewhere: the documents whole, and then every update to them. */
import type { Board } from "@halflap/board/board";
import {
  type BoardDocuments,
  type DocumentName,
  documentNames,
  emptyDocuments,
} from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import * as Y from "yjs";

/** The documents as they are, in one piece each. */
export type DocumentStates = Readonly<Record<DocumentName, Uint8Array>>;

/** One of the documents changed. */
export type DocumentUpdate = {
  readonly kind: "update";
  readonly document: DocumentName;
  readonly update: Uint8Array;
};

export type FeedMessage =
  /** These are the documents from now on. */
  { readonly kind: "documents"; readonly documents: DocumentStates } | DocumentUpdate;

/** The far end of a feed: a board that says what the documents say. */
export type FedBoard = {
  take(message: FeedMessage): void;
  /** What did not change since the last reading is the same object. */
  read(): Board;
};

/** The documents as they can be sent. */
export function statesOf(documents: BoardDocuments): DocumentStates {
  return {
    board: Y.encodeStateAsUpdate(documents.board),
    "lane-upper": Y.encodeStateAsUpdate(documents["lane-upper"]),
    "lane-lower": Y.encodeStateAsUpdate(documents["lane-lower"]),
    talk: Y.encodeStateAsUpdate(documents.talk),
  };
}

/** Tells of every update from now on, until the function that it gives is called. */
export function onUpdates(
  documents: BoardDocuments,
  tell: (update: DocumentUpdate) => void,
): () => void {
  const ends = documentNames.map((document) => {
    const onUpdate = (update: Uint8Array) => tell({ kind: "update", document, update });
    documents[document].on("update", onUpdate);
    return () => documents[document].off("update", onUpdate);
  });
  return () => {
    for (const end of ends) end();
  };
}

/** Sends the documents now and their updates later, until the function that it gives is called. */
export function feedFrom(
  documents: BoardDocuments,
  send: (message: FeedMessage) => void,
): () => void {
  send({ kind: "documents", documents: statesOf(documents) });
  return onUpdates(documents, send);
}

/** An empty board until the first documents come. */
export function makeFedBoard(): FedBoard {
  let documents = emptyDocuments();
  let read = makeReader(documents);
  return {
    take(message) {
      if (message.kind === "update") {
        Y.applyUpdate(documents[message.document], message.update);
        return;
      }
      documents = emptyDocuments();
      for (const name of documentNames) Y.applyUpdate(documents[name], message.documents[name]);
      read = makeReader(documents);
    },
    read: () => read(),
  };
}
