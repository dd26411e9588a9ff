/** What this browser kept of a document and nobody can read: put where it stays and is not read. */
import * as Y from "yjs";

/** The stores of a document's database, as y-indexeddb makes them; it reads the first alone. */
const read = "updates";
const notRead = "custom";

/** Moves the unreadable entries of a document's database aside; nothing is deleted. */
export async function setUnreadableAside(name: string): Promise<void> {
  const database = await opened(name);
  try {
    await moved(database);
  } finally {
    database.close();
  }
}

function opened(name: string): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(name);
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

function moved(database: IDBDatabase): Promise<void> {
  return new Promise((resolve, reject) => {
    const transaction = database.transaction([read, notRead], "readwrite");
    const walk = transaction.objectStore(read).openCursor();
    walk.onsuccess = () => {
      const entry = walk.result;
      if (entry === null) return;
      if (!isReadable(entry.value)) {
        transaction.objectStore(notRead).put(entry.value, `unreadable ${entry.key}`);
        entry.delete();
      }
      entry.continue();
    };
    transaction.oncomplete = () => resolve();
    transaction.onabort = () => reject(transaction.error);
  });
}

function isReadable(entry: Uint8Array): boolean {
  try {
    Y.applyUpdate(new Y.Doc(), entry);
    return true;
  } catch {
    return false;
  }
}
