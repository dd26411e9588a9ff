/** Keeps one document in this browser (IndexedDB), and says so when the browser can't. */
import { type Accessor, createSignal } from "solid-js";
import { IndexeddbPersistence } from "y-indexeddb";
import type * as Y from "yjs";

export type Keep = {
  /**
   * Resolves once what was kept is in the document, or once it is clear that nothing can be kept.
   */
  readonly loaded: Promise<void>;
  /** Whether the browser refused to keep something: no storage, or no room. */
  readonly failing: Accessor<boolean>;
  close(): void;
  /** Throws away what was kept. */
  forget(): Promise<void>;
};

/** Keeps a document under a name. Nothing is thrown: without storage the keep is `failing`. */
export function openKeep(name: string, doc: Y.Doc): Keep {
  const [failing, setFailing] = createSignal(false);
  const fail = () => {
    setFailing(true);
  };
  if (typeof indexedDB === "undefined") {
    fail();
    return { loaded: Promise.resolve(), failing, close() {}, forget: async () => {} };
  }
  const kept = new IndexeddbPersistence(name, doc);
  // A write that finds no room ends its transaction: that event bubbles up to the database.
  kept._db.then((db) => {
    db.addEventListener("abort", fail);
    db.addEventListener("error", fail);
  }, fail);
  const opened = kept.whenSynced.then(() => {});
  return {
    loaded: Promise.race([opened, kept._db.then(() => opened, fail)]),
    failing,
    close() {
      kept.destroy().catch(fail);
    },
    async forget() {
      try {
        const db = await kept._db;
        const cleared = emptied(db);
        await kept.destroy(); // closing waits for the open transaction
        await cleared;
      } catch {
        fail();
      }
    },
  };
}

/** Empties the store instead of deleting the database, which would wait for every other tab. */
function emptied(db: IDBDatabase): Promise<void> {
  return new Promise((resolve, reject) => {
    const transaction = db.transaction("updates", "readwrite");
    transaction.objectStore("updates").clear();
    transaction.oncomplete = () => resolve();
    transaction.onabort = () => reject(transaction.error);
  });
}
