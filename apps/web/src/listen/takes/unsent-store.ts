/** Takes that the server does not have yet, kept in this browser (IndexedDB) until it has. */
import type { TakeHead } from "@halflap/board/take";
import type { BoardId } from "@halflap/wire/api";

export type UnsentTake = {
  readonly key: string;
  readonly board: BoardId;
  readonly head: TakeHead;
  readonly sound: Blob;
};

const databaseName = "halflap-unsent-takes";
const storeName = "takes";

/** Keeps one. Rejects when the browser keeps nothing, or has no room. */
export async function keepUnsent(take: UnsentTake): Promise<void> {
  await inStore("readwrite", (store) => store.put(take));
}

/** It is sent, or thrown away. */
export async function forgetUnsent(key: string): Promise<void> {
  await inStore("readwrite", (store) => store.delete(key));
}

/** Those of a board; none where nothing can be kept. */
export async function unsentOf(board: BoardId): Promise<readonly UnsentTake[]> {
  try {
    const all: readonly UnsentTake[] = await inStore("readonly", (store) => store.getAll());
    return all.filter((take) => take.board === board);
  } catch {
    return [];
  }
}

async function inStore<T>(
  mode: IDBTransactionMode,
  ask: (store: IDBObjectStore) => IDBRequest<T>,
): Promise<T> {
  const database = await opened();
  try {
    return await new Promise<T>((resolve, reject) => {
      const transaction = database.transaction(storeName, mode);
      const request = ask(transaction.objectStore(storeName));
      transaction.oncomplete = () => resolve(request.result);
      transaction.onabort = () => reject(transaction.error);
    });
  } finally {
    database.close();
  }
}

function opened(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(databaseName, 1);
    request.onupgradeneeded = () => request.result.createObjectStore(storeName, { keyPath: "key" });
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
    request.onblocked = () => reject(new Error("the browser's storage is in use elsewhere"));
  });
}
