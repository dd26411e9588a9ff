/**
 * The stock y-websocket client in Node: the same code as in the page, with the visitor's cookie on
 * its sockets.
 */
import { type BoardDocuments, type DocumentName, documentNames } from "@halflap/board/documents";
import type { BoardId } from "@halflap/wire/api";
import { WebSocket } from "ws";
import { WebsocketProvider } from "y-websocket";
import * as Y from "yjs";
import type { Visitor } from "./browser-session.ts";

export class StockClient {
  readonly doc: Y.Doc;
  readonly provider: WebsocketProvider;

  private constructor(visitor: Visitor, board: BoardId, document: DocumentName, doc: Y.Doc) {
    this.doc = doc;
    this.provider = new WebsocketProvider(
      `${visitor.address.replace("http", "ws")}/sync/${board}`,
      document,
      doc,
      { WebSocketPolyfill: socketOf(visitor), disableBc: true },
    );
  }

  /** Opens one document and waits until it is synced. */
  static async of(
    visitor: Visitor,
    board: BoardId,
    document: DocumentName,
    doc = new Y.Doc(),
  ): Promise<StockClient> {
    const client = new StockClient(visitor, board, document, doc);
    await client.synced();
    return client;
  }

  /** Opens all four documents of a board. */
  static async allOf(visitor: Visitor, board: BoardId) {
    const clients = await Promise.all(
      documentNames.map((name) => StockClient.of(visitor, board, name)),
    );
    const named = documentNames.map((name, i) => [name, clients[i]?.doc ?? new Y.Doc()]);
    return {
      documents: Object.fromEntries(named) as BoardDocuments,
      close: () => {
        for (const client of clients) client.close();
      },
    };
  }

  synced(): Promise<void> {
    return new Promise((resolve) => {
      if (this.provider.synced) resolve();
      else this.provider.once("sync", () => resolve());
    });
  }

  /** Waits until the document is as wanted. */
  until(isWanted: () => boolean): Promise<void> {
    return new Promise((resolve) => {
      const look = () => {
        if (!isWanted()) return;
        this.doc.off("update", look);
        resolve();
      };
      this.doc.on("update", look);
      look();
    });
  }

  close(): void {
    this.provider.destroy();
  }
}

/** A browser sends cookie and origin by itself; in Node the socket has to be told. */
function socketOf(visitor: Visitor): typeof globalThis.WebSocket {
  class VisitorSocket extends WebSocket {
    constructor(url: string | URL) {
      super(url, { headers: { origin: visitor.address, cookie: visitor.cookie ?? "" } });
    }
  }
  return VisitorSocket as unknown as typeof globalThis.WebSocket;
}
