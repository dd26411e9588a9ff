/** What is said on one connection within one turn of the event loop, joined into one write. */

/** A connection as far as its writes are concerned. */
export type Corked = { cork(): void; uncork(): void };

/** Joins the writes on one connection. */
export class TurnWrites {
  private readonly connection: Corked;
  private isWaiting = false;

  constructor(connection: Corked) {
    this.connection = connection;
  }

  /**
   * To be called before each write: what follows in this turn waits, and goes out together behind
   * it. A writer whose save is told to many pages costs one system call a page, not one an edit.
   */
  hold(): void {
    if (this.isWaiting) return;
    this.isWaiting = true;
    this.connection.cork();
    process.nextTick(TurnWrites.release, this);
  }

  private static release(this: void, writes: TurnWrites): void {
    writes.isWaiting = false;
    writes.connection.uncork();
  }
}
