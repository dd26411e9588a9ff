/** What is read from the documents: the live board at once, findings once they are worked out. */
import type { Board } from "@halflap/board/board";
import type { BoardDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import type { Finding } from "@halflap/checker/finding";
import type { WayOut } from "@halflap/checker/ways-out";
import { type Accessor, createSignal } from "solid-js";
import { openChecking } from "./checking.ts";
import { makeLiveBoard } from "./follow.ts";

export type Readings = {
  /** Every field is live. */
  readonly board: Board;
  /** The last board read, plain. */
  readonly plain: () => Board;
  readonly findings: Accessor<readonly Finding[]>;
  readonly isChecked: Accessor<boolean>;
  readonly waysOut: (finding: string) => Promise<readonly WayOut[]>;
  /** Reads from other documents from now on. */
  turnTo(documents: BoardDocuments): void;
  close(): void;
};

const none: readonly Finding[] = [];

/** Reads the documents now, and again after every change. */
export function openReadings(documents: BoardDocuments): Readings {
  let read = makeReader(documents);
  let plain = read();
  const live = makeLiveBoard(plain);
  const [findings, setFindings] = createSignal<readonly Finding[]>();
  const checking = openChecking(setFindings);
  checking.follow(documents);
  const reading = onceSoon(() => {
    const next = read();
    if (next === plain) return;
    plain = next;
    live.follow(plain);
  });
  let unwatch = watch(documents, reading.ask);
  return {
    board: live.board,
    plain: () => plain,
    findings: () => findings() ?? none,
    isChecked: () => findings() !== undefined,
    waysOut: checking.waysOut,
    turnTo(others) {
      checking.follow(others);
      unwatch();
      read = makeReader(others);
      unwatch = watch(others, reading.ask);
      reading.ask();
    },
    close() {
      unwatch();
      reading.stop();
      checking.close();
    },
  };
}

function watch(documents: BoardDocuments, onChange: () => void): () => void {
  const all = Object.values(documents);
  for (const doc of all) doc.on("update", onChange);
  return () => {
    for (const doc of all) doc.off("update", onChange);
  };
}

/** Runs a task once after what runs now, however often it was asked for. */
function onceSoon(task: () => void): { ask(): void; stop(): void } {
  let waiting = false;
  let stopped = false;
  return {
    ask() {
      if (waiting) return;
      waiting = true;
      queueMicrotask(() => {
        waiting = false;
        if (!stopped) task();
      });
    },
    stop() {
      stopped = true;
    },
  };
}
