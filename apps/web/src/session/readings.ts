/** What is read from the documents: the live board at once, findings once they are worked out. */
import type { Board } from "@halflap/board/board";
import type { BoardDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import type { Finding } from "@halflap/checker/finding";
import type { WayOut } from "@halflap/checker/ways-out";
import { type Accessor, batch, createSignal } from "solid-js";
import type * as Y from "yjs";
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
  /** How often a chart was read that was changed from elsewhere. */
  readonly heardCharts: Accessor<number>;
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
  const [heardCharts, setHeardCharts] = createSignal(0);
  let isHeard = false;
  const reading = onceSoon(() => {
    const next = read();
    if (next === plain) return;
    plain = next;
    batch(() => {
      live.follow(plain);
      if (isHeard) setHeardCharts((before) => before + 1);
    });
    isHeard = false;
  });
  const onChange = (isChartHeard: boolean) => {
    isHeard ||= isChartHeard;
    reading.ask();
  };
  let unwatch = watch(documents, onChange);
  return {
    board: live.board,
    plain: () => plain,
    findings: () => findings() ?? none,
    isChecked: () => findings() !== undefined,
    waysOut: checking.waysOut,
    heardCharts,
    turnTo(others) {
      checking.follow(others);
      unwatch();
      read = makeReader(others);
      unwatch = watch(others, onChange);
      reading.ask();
    },
    close() {
      unwatch();
      reading.stop();
      checking.close();
    },
  };
}

/** Tells of every change, and whether it is one of the chart that was not made here. */
function watch(documents: BoardDocuments, onChange: (isChartHeard: boolean) => void): () => void {
  const all = Object.values(documents);
  const tell = (_update: Uint8Array, _origin: unknown, doc: Y.Doc, { local }: Y.Transaction) =>
    onChange(doc === documents.board && !local);
  for (const doc of all) doc.on("update", tell);
  return () => {
    for (const doc of all) doc.off("update", tell);
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
