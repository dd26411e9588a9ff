/** What is said on one connection within one turn of the event loop, joined into one write. */

/** A connection as far as its writes are concerned. */
export type Corked = { cork(): void; uncork(): void };

/**
 * To be called before each write: what follows in this turn waits, and goes out together behind it.
 * A writer whose save is told to many pages costs one system call a page, not one an edit.
 */
export function joinedWrites(connection: Corked): () => void {
  let isWaiting = false;
  const goOut = () => {
    isWaiting = false;
    connection.uncork();
  };
  return () => {
    if (isWaiting) return;
    isWaiting = true;
    connection.cork();
    process.nextTick(goOut);
  };
}
