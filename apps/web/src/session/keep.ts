/** Keeps one document in this browser (IndexedDB), and says so when the browser can't. */
import { type Accessor, createSignal } from "solid-js";
import { IndexeddbPersistence } from "y-indexeddb";
import type * as Y from "yjs";
import { setUnreadableAside } from "./set-aside-entries.ts";

export type Keep = {
  /**
   * Resolves once what was kept is in the document, or once it is clear that nothing can be kept,
   * or read.
   */
  readonly loaded: Promise<void>;
  /** Whether the browser refused to keep something: no storage, or no room. */
  readonly failing: Accessor<boolean>;
  /** Whether some of what was kept could not be read, and was set aside. */
  readonly hasUnreadable: Accessor<boolean>;
  close(): void;
  /** Throws away what was kept. */
  forget(): Promise<void>;
};

/** A browser that throws away what it kept is still at it when the database closes. */
const againMs = 1_000;
/** A database that has not answered by then is taken for one that never will. */
const readMaxMs = 10_000;
const unreadable = new Error("What was kept can't be read.");

/** Keeps a document under a name. Nothing is thrown: without storage the keep is `failing`. */
export function openKeep(name: string, doc: Y.Doc): Keep {
  const [failing, setFailing] = createSignal(false);
  const [hasUnreadable, setHasUnreadable] = createSignal(false);
  const fail = () => {
    setFailing(true);
  };
  if (typeof indexedDB === "undefined") {
    fail();
    const nothing = { close() {}, forget: async () => {} };
    return { loaded: Promise.resolve(), failing, hasUnreadable, ...nothing };
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
  const openRest = () => {
    if (!isOpen) return undefined;
    setHasUnreadable(true);
    kept = openStore(name, doc, fail, onLost);
    return kept;
  };
  return {
    loaded: whenRepaired(kept, openRest).catch(() => {
      fail();
      kept.destroy().catch(fail); // what came later would come in unnoticed
    }),
    failing,
    hasUnreadable,
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

/**
 * Resolves once what was kept is in the document; rejects where it can't be read in time, and as
 * `unreadable` where it makes no sense.
 */
function whenRead(kept: IndexeddbPersistence): Promise<void> {
  return new Promise((resolve, reject) => {
    setTimeout(reject, readMaxMs);
    kept._db.catch(reject);
    kept.once("synced", () => resolve());
    // All is read in one transaction, which "synced" follows at once unless something is broken.
    kept.doc.on("afterTransaction", ({ origin }: Y.Transaction) => {
      if (origin === kept) queueMicrotask(() => reject(unreadable));
    });
  });
}

/** The same where some of it makes no sense: that is set aside, and the rest read once more. */
async function whenRepaired(
  kept: IndexeddbPersistence,
  openRest: () => IndexeddbPersistence | undefined,
): Promise<void> {
  try {
    await whenRead(kept);
  } catch (why) {
    if (why !== unreadable) throw why;
    await kept.destroy();
    await setUnreadableAside(kept.name);
    const rest = openRest();
    if (rest !== undefined) await whenRead(rest);
  }
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
