/**
 * Merging, folding and reading titles in a thread beside the one that serves: one job at a time,
 * bounded in time and memory. A thread that fails over a job is ended, and a new one made for the
 * next.
 */
import { Worker } from "node:worker_threads";
import { titleWaitMs } from "./board-titles.ts";
import { type Folding, type FoldingKind, Unreadable } from "./folding-port.ts";
import type { FoldingAnswer, FoldingJob } from "./folding-worker.ts";
import { packed } from "./packed-updates.ts";

export type FoldingBounds = {
  /** How long each kind of job may take, in milliseconds. */
  readonly merge: number;
  readonly title: number;
  readonly fold: number;
  /** Memory for what is built of a document, beside its bytes, in MiB. */
  readonly heap: number;
};

/** Jobs that wait: a title, and documents that somebody opens or has open; sockets are counted. */
const jobsMax = 2_000;

/**
 * A document of 16 MiB in half a million of the smallest edits, none of them folded, takes some six
 * seconds and half the memory on a machine that has time; a busy one is given five times as long.
 * A title is given as long as a list waits for it: one can be asked for of many boards at once.
 */
export const usualBounds: FoldingBounds = {
  merge: 30_000,
  title: titleWaitMs,
  fold: 60_000,
  heap: 1024,
};

/** For a merge somebody waits at the door, for a title before a list, for a fold nobody. */
const kindsByHaste: readonly FoldingKind[] = ["merge", "title", "fold"];

type Job = {
  readonly kind: FoldingKind;
  readonly updates: readonly Uint8Array[];
  resolve(bytes: Uint8Array): void;
  reject(fault: Error): void;
};

/** Starts the thread, so that it is there when a document is wanted; it holds up no exit. */
export function startFoldingThread(bounds = usualBounds): Folding {
  return new FoldingThread(bounds);
}

class FoldingThread implements Folding {
  private readonly bounds: FoldingBounds;
  private waiting: Job[] = [];
  private current: Job | undefined;
  private isClosed = false;
  /** Undefined after it failed, until there is something to do. */
  private thread: Worker | undefined;
  private isReady = false;
  private timer: NodeJS.Timeout | undefined;

  constructor(bounds: FoldingBounds) {
    this.bounds = bounds;
    this.thread = this.made();
  }

  merge(updates: readonly Uint8Array[]): Promise<Uint8Array> {
    return this.asked("merge", updates);
  }

  fold(updates: readonly Uint8Array[]): Promise<Uint8Array> {
    return this.asked("fold", updates);
  }

  async title(updates: readonly Uint8Array[]): Promise<string> {
    return new TextDecoder().decode(await this.asked("title", updates));
  }

  async close(): Promise<void> {
    this.isClosed = true;
    const thread = this.thread;
    this.giveUp(new Error(closedWords));
    await thread?.terminate();
  }

  private asked(kind: FoldingKind, updates: readonly Uint8Array[]): Promise<Uint8Array> {
    if (this.isClosed) return Promise.reject(new Error(closedWords));
    if (this.waiting.length >= jobsMax) return Promise.reject(new Error("too much waits already"));
    return new Promise((resolve, reject) => {
      this.waiting.push({ kind, updates, resolve, reject });
      this.next();
    });
  }

  private next(): void {
    if (this.current !== undefined || this.waiting.length === 0) return;
    this.thread ??= this.made();
    if (!this.isReady) return;
    const firstOf = (kind: FoldingKind) => this.waiting.find((each) => each.kind === kind);
    const job = kindsByHaste.map(firstOf).find((each) => each !== undefined);
    if (job === undefined) return;
    this.waiting = this.waiting.filter((each) => each !== job);
    this.begin(job, this.thread);
  }

  private begin(job: Job, thread: Worker): void {
    this.current = job;
    const { bytes, ends } = packed(job.updates);
    const sent: FoldingJob = { kind: job.kind, bytes, ends };
    thread.ref();
    thread.postMessage(sent, [bytes.buffer, ends.buffer]);
    const limitMs = this.bounds[job.kind];
    this.timer = setTimeout(() => {
      const ended = this.ended();
      this.thread = undefined;
      void thread.terminate();
      ended?.reject(new Unreadable(`its ${job.kind} takes longer than ${limitMs} ms`));
      this.next();
    }, limitMs);
  }

  private made(): Worker {
    this.isReady = false;
    const thread = new Worker(new URL("./folding-worker.mjs", import.meta.url), {
      execArgv: [], // it brings what it needs, whatever this process was started with
      resourceLimits: { maxOldGenerationSizeMb: this.bounds.heap },
    });
    thread.unref();
    thread.on("message", (said: FoldingAnswer) => {
      if (thread === this.thread) this.hear(said, thread);
    });
    thread.on("error", (fault) => {
      if (thread === this.thread) this.failed(fault);
    });
    return thread;
  }

  private hear(said: FoldingAnswer, thread: Worker): void {
    if (said.kind === "ready") this.isReady = true;
    else {
      const job = this.ended();
      if (said.kind === "done") job?.resolve(said.bytes);
      else job?.reject(new Unreadable(said.why));
      thread.unref();
    }
    this.next();
  }

  /** A thread that fails over a job says something of that document; an idle one does not. */
  private failed(fault: unknown): void {
    if (this.current === undefined) {
      this.giveUp(new Error("the thread that folds can't be started", { cause: fault }));
      return;
    }
    this.thread = undefined;
    const why = fault instanceof Error ? fault.message : String(fault);
    this.ended()?.reject(new Unreadable(`folding it failed: ${why}`, { cause: fault }));
    this.next();
  }

  private giveUp(fault: Error): void {
    this.thread = undefined;
    const all = [this.ended(), ...this.waiting.splice(0)];
    for (const job of all) job?.reject(fault);
  }

  private ended(): Job | undefined {
    clearTimeout(this.timer);
    const job = this.current;
    this.current = undefined;
    return job;
  }
}

const closedWords = "the thread that folds has been closed";
