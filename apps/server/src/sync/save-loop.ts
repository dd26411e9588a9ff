/**
 * The save loop: edits that come in within a tick are stored in one transaction, then told and
 * passed on.
 *
 * Nothing reaches a peer before it is on disk. It costs a peer one commit of waiting (a few
 * milliseconds; a tick at most under load) and buys that a full disk or a kill can never leave an
 * edit in somebody else's browser that the server does not have: there is nothing to call back, and
 * nobody is left to bring in another's content.
 */
import type { NewRow, UpdateLog } from "../store/log-port.ts";

/** 2 ms costs half as much processor again, 20 ms gains nothing. */
export const tickMs = 10;

export type Outcome = "stored" | "full";
type Waiting = { readonly row: NewRow; readonly done: (outcome: Outcome) => void };

export type SaveLoopPorts = {
  readonly log: UpdateLog;
  readonly now: () => number;
  /** Told about each failed attempt, with the fault. */
  readonly onFault: (fault: unknown) => void;
};

/** One for the process, so that all rooms share a commit. */
export class SaveLoop {
  private waiting: Waiting[] = [];
  private running: Promise<void> | undefined;
  private lastRun = 0;
  private readonly ports: SaveLoopPorts;

  constructor(ports: SaveLoopPorts) {
    this.ports = ports;
  }

  /** Stores a row soon. `done` is called in the order of the calls, for rows that failed too. */
  save(row: NewRow, done: (outcome: Outcome) => void): void {
    this.waiting.push({ row, done });
    this.running ??= this.run();
  }

  /** Resolves when everything handed in so far is decided. */
  async flush(): Promise<void> {
    while (this.running !== undefined) await this.running;
  }

  private async run(): Promise<void> {
    await pause(Math.max(0, this.lastRun + tickMs - this.ports.now()));
    const batch = this.waiting;
    this.waiting = [];
    const outcome = await this.attempt(batch);
    // Rows that came in meanwhile may build on rows that failed, so they fail with them.
    const decided = outcome === "stored" ? batch : [...batch, ...this.waiting.splice(0)];
    this.lastRun = this.ports.now();
    this.running = undefined;
    if (this.waiting.length > 0) this.running = this.run();
    for (const { done } of decided) this.tell(done, outcome);
  }

  /** A fault in one room must not keep the others from hearing. */
  private tell(done: Waiting["done"], outcome: Outcome): void {
    try {
      done(outcome);
    } catch (fault) {
      this.ports.onFault(fault);
    }
  }

  private async attempt(batch: readonly Waiting[]): Promise<Outcome> {
    try {
      await this.ports.log.append(batch.map(({ row }) => row));
      return "stored";
    } catch (fault) {
      this.ports.onFault(fault);
      return "full"; // whatever the fault is, it is not stored and the writer keeps it
    }
  }
}

function pause(ms: number): Promise<void> {
  return new Promise((resolve) => {
    if (ms === 0) setImmediate(resolve);
    else setTimeout(resolve, ms);
  });
}
