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

/** A browser that throws away what it kept is still at it when the database closes. */
const againMs = 1_000;

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
  const opened = kept.whenSynced.then(() => {});
  return {
    loaded: Promise.race([opened, kept._db.then(() => opened, fail)]),
    failing,
    close() {
      end();
      kept.destroy().catch(fail);
    },
    async forget() {
      end();
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

/** Empties the store instead of deleting the database, which would wait for every other tab. */
function emptied(db: IDBDatabase): Promise<void> {
  return new Promise((resolve, reject) => {
    const transaction = db.transaction("updates", "readwrite");
    transaction.objectStore("updates").clear();
    transaction.oncomplete = () => resolve();
    transaction.onabort = () => reject(transaction.error);
  });
}
