/** The save loop: edits that come in within a tick are stored in one transaction, then told. */
import { unsavedBytesMax } from "@halflap/wire/limits";
import type { Appended, NewRow, UpdateLog } from "../store/log-port.ts";
import { batchOf, nameOf } from "./batch.ts";

/**
 * Others have heard an edit by then: only "saved" waits. Half of it costs a third more for each row
 * in SQLite.
 */
export const tickMs = 20;
/** The same where somebody waits to hear a row. */
export const urgentTickMs = 2;

export type Outcome =
  | Appended
  /** Not stored, since it may build on a row before it that was refused: to be asked for again. */
  | { readonly kind: "again" }
  /** Not stored, whatever the fault is, and its writer keeps it. */
  | { readonly kind: "full" };

type Waiting = { readonly row: NewRow; readonly done: (outcome: Outcome) => void };

export type SaveLoopPorts = {
  readonly log: UpdateLog;
  /** Milliseconds that never go back, from any start. */
  readonly now: () => number;
  /** Told about each failed attempt, with the fault. */
  readonly onFault: (fault: unknown) => void;
};

/** One for the process, so that all rooms share a commit. */
export class SaveLoop {
  private waiting: Waiting[] = [];
  /** What the run under way has taken on and not told yet. */
  private deciding: readonly Waiting[] = [];
  /** Bytes of all rows that are not decided. */
  private bytes = 0;
  private running: Promise<void> | undefined;
  private lastRun = 0;
  /** Whether somebody waits to hear a row that waits here. */
  private isUrgent = false;
  /** Ends the pause that a run is in. */
  private wake: (() => void) | undefined;
  /** Whether the last attempt succeeded; before the first, that is hoped. */
  isSound = true;
  private readonly ports: SaveLoopPorts;

  constructor(ports: SaveLoopPorts) {
    this.ports = ports;
  }

  /** Whether an update of this size may wait too; while the store is away they become many. */
  hasRoomFor(bytes: number): boolean {
    return this.bytes + bytes <= unsavedBytesMax;
  }

  /**
   * Stores a row soon, sooner when it is urgent. `done` is called for rows that failed too, and for
   * those of one document in the order of the calls.
   */
  save(row: NewRow, done: (outcome: Outcome) => void, isUrgent = false): void {
    this.waiting.push({ row, done });
    this.bytes += row.update.length;
    if (isUrgent && !this.isUrgent) {
      this.isUrgent = true;
      this.wake?.();
    }
    this.running ??= this.run();
  }

  /** Resolves when everything handed in so far is decided. */
  async flush(): Promise<void> {
    const asked = new Set([...this.deciding, ...this.waiting]);
    const isOpen = (one: Waiting) => asked.has(one);
    while (this.deciding.some(isOpen) || this.waiting.some(isOpen)) await this.running;
  }

  private async run(): Promise<void> {
    if (!this.isUrgent) await this.pause(tickMs);
    if (this.isUrgent) await this.pause(urgentTickMs);
    const { batch, later } = batchOf(this.waiting);
    this.waiting = later;
    this.deciding = batch;
    this.isUrgent = later.length > 0; // they wait to be heard behind rows of this batch
    const outcomes = await this.attempt(batch);
    const fallen = this.fallenWith(batch, outcomes);
    for (const { row } of batch) this.bytes -= row.update.length;
    for (const { row } of fallen) this.bytes -= row.update.length;
    this.lastRun = this.ports.now();
    this.running = undefined;
    if (this.waiting.length > 0) this.running = this.run();
    for (const [i, { done }] of batch.entries()) this.tell(done, outcomes?.[i] ?? full);
    for (const { done, outcome } of fallen) this.tell(done, outcome);
    this.deciding = [];
  }

  /** Until so long after the last run, or until something urgent comes. */
  private pause(ms: number): Promise<void> {
    const left = Math.max(0, this.lastRun + ms - this.ports.now());
    return new Promise((resolve) => {
      if (left === 0) {
        setImmediate(resolve);
        return;
      }
      const timer = setTimeout(resolve, left);
      this.wake = () => {
        clearTimeout(timer);
        resolve();
      };
    });
  }

  /** Rows that came in meanwhile may build on rows that failed, so they fail with them. */
  private fallenWith(batch: readonly Waiting[], outcomes: readonly Outcome[] | undefined) {
    if (outcomes === undefined) {
      return this.waiting.splice(0).map((one) => ({ ...one, outcome: full }));
    }
    const foreign = batch.filter((_, i) => outcomes[i]?.kind === "foreign");
    if (foreign.length === 0) return [];
    const refused = new Set(foreign.map(({ row }) => nameOf(row.key)));
    const isBehind = ({ row }: Waiting) => refused.has(nameOf(row.key));
    const behind = this.waiting.filter(isBehind);
    if (behind.length > 0) this.waiting = this.waiting.filter((one) => !isBehind(one));
    return behind.map((one) => ({ ...one, outcome: again }));
  }

  /** A fault in one room must not keep the others from hearing. */
  private tell(done: Waiting["done"], outcome: Outcome): void {
    try {
      done(outcome);
    } catch (fault) {
      this.ports.onFault(fault);
    }
  }

  /** Undefined when nothing may be said to be stored. */
  private async attempt(batch: readonly Waiting[]): Promise<readonly Outcome[] | undefined> {
    try {
      const outcomes = await this.ports.log.append(batch.map(({ row }) => row));
      this.isSound = true;
      return outcomes;
    } catch (fault) {
      this.isSound = false;
      this.ports.onFault(fault);
      return undefined;
    }
  }
}

const full: Outcome = { kind: "full" };
const again: Outcome = { kind: "again" };
