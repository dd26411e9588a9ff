/** What is said on one connection within one turn of the event loop, joined into one write. */

/** A connection as far as its writes are concerned. */
export type Corked = {
  readonly writable: boolean;
  write(bytes: Uint8Array): unknown;
  cork(): void;
  uncork(): void;
};

/** Joins the writes on one connection. */
export class TurnWrites {
  /** Written in this turn, in bytes, and not handed on yet. */
  bytes = 0;
  private readonly connection: Corked;
  private waiting: Uint8Array[] = [];

  constructor(connection: Corked) {
    this.connection = connection;
  }

  /**
   * Goes out behind this turn with all else that is written in it. A writer whose save is told to
   * many pages costs one system call a page, not one an edit.
   */
  write(bytes: Uint8Array): void {
    if (this.waiting.length === 0) process.nextTick(TurnWrites.release, this);
    this.waiting.push(bytes);
    this.bytes += bytes.length;
  }

  /** Hands on at once, before something is said past this. */
  flush(): void {
    const { connection, waiting } = this;
    if (waiting.length === 0) return;
    this.waiting = [];
    this.bytes = 0;
    if (!connection.writable) return; // ended meanwhile: nobody hears it
    // Nearly always it is one, and that is the cheapest way for one.
    const [first] = waiting;
    if (waiting.length === 1 && first !== undefined) {
      connection.write(first);
      return;
    }
    connection.cork();
    for (const bytes of waiting) connection.write(bytes);
    connection.uncork();
  }

  private static release(this: void, writes: TurnWrites): void {
    writes.flush();
  }
}
