/** Keeps one document in this browser (IndexedDB), and says so when the browser can't. */
import { type Accessor, createSignal } from "solid-js";
import { IndexeddbPersistence } from "y-indexeddb";
import type * as Y from "yjs";

export type Keep = {
  /**
   * Resolves once what was kept is in the document, or once it is clear that nothing can be kept,
   * or read.
   */
  readonly loaded: Promise<void>;
  /** Whether the browser refused to keep something: no storage, or no room. */
  readonly failing: Accessor<boolean>;
  close(): void;
  /** Throws away what was kept. */
  forget(): Promise<void>;
};

/** A browser that throws away what it kept is still at it when the database closes. */
const againMs = 1_000;
/** A database that has not answered by then is taken for one that never will. */
const readMaxMs = 10_000;

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
  let isOpen = true;
  let retry: ReturnType<typeof setTimeout> | undefined;
  /** The browser closed the database: what is opened anew stores all that the document holds. */
  const onLost = () => {
    fail();
    clearTimeout(retry);
    if (!isOpen) return;
    kept.destroy().catch(fail);
    retry = setTimeout(() => {
      kept = openStore(name, doc, fail, onLost);
      kept.once("synced", () => setFailing(false));
    }, againMs);
  };
  const end = () => {
    isOpen = false;
    clearTimeout(retry);
  };
  let kept = openStore(name, doc, fail, onLost);
  return {
    loaded: whenRead(kept).catch(() => {
      fail();
      kept.destroy().catch(fail); // what came later would come in unnoticed
    }),
    failing,
    close() {
      end();
      kept.destroy().catch(fail);
    },
    async forget() {
      end();
      try {
        if (kept.db === null) throw new Error("The database never opened.");
        const cleared = emptied(kept.db);
        await kept.destroy(); // closing waits for the open transaction
        await cleared;
      } catch {
        fail();
      }
    },
  };
}

function openStore(
  name: string,
  doc: Y.Doc,
  fail: () => void,
  onLost: () => void,
): IndexeddbPersistence {
  const kept = new IndexeddbPersistence(name, doc);
  // A write that finds no room ends its transaction: that event bubbles up to the database.
  kept._db.then((db) => {
    db.addEventListener("abort", fail);
    db.addEventListener("error", fail);
    db.addEventListener("close", onLost);
  }, fail);
  // On a closed database it throws, and Yjs would tell nobody of a change any more.
  const write = kept._storeUpdate;
  doc.off("update", write);
  kept._storeUpdate = (update, origin) => {
    try {
      write(update, origin);
    } catch {
      onLost();
    }
  };
  doc.on("update", kept._storeUpdate);
  return kept;
}

/** Resolves once what was kept is in the document; rejects where it can't be read in time. */
function whenRead(kept: IndexeddbPersistence): Promise<void> {
  return new Promise((resolve, reject) => {
    setTimeout(reject, readMaxMs);
    kept._db.catch(reject);
    kept.once("synced", () => resolve());
    // All is read in one transaction, which "synced" follows at once unless something is broken.
    kept.doc.on("afterTransaction", ({ origin }: Y.Transaction) => {
      if (origin === kept) queueMicrotask(reject);
    });
  });
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
