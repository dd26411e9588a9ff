/** What is read from the documents: the live board at once, the findings with the next frame. */
import type { Board } from "@halflap/board/board";
import type { BoardDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { check } from "@halflap/checker/check";
import type { Finding } from "@halflap/checker/finding";
import { type Accessor, createSignal } from "solid-js";
import { makeLiveBoard } from "./follow.ts";

export type Readings = {
  /** Every field is live. */
  readonly board: Board;
  /** The last board read, plain. */
  readonly plain: () => Board;
  readonly findings: Accessor<readonly Finding[]>;
  /** Reads from other documents from now on. */
  turnTo(documents: BoardDocuments): void;
  close(): void;
};

/** Reads the documents now, and again after every change. */
export function openReadings(documents: BoardDocuments): Readings {
  let read = makeReader(documents);
  let plain = read();
  const live = makeLiveBoard(plain);
  const [findings, setFindings] = createSignal<readonly Finding[]>(check(plain));

  const checking = onceSoon(whenDrawn, () => {
    setFindings((previous) => check(plain, previous));
  });
  const reading = onceSoon(queueMicrotask, () => {
    const next = read();
    if (next === plain) return;
    plain = next;
    live.follow(plain);
    checking.ask();
  });
  let unwatch = watch(documents, reading.ask);
  return {
    board: live.board,
    plain: () => plain,
    findings,
    turnTo(others) {
      unwatch();
      read = makeReader(others);
      unwatch = watch(others, reading.ask);
      reading.ask();
    },
    close() {
      unwatch();
      reading.stop();
      checking.stop();
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

/** Runs a task once however often it was asked for before its time came. */
function onceSoon(
  soon: (run: () => void) => void,
  task: () => void,
): { ask(): void; stop(): void } {
  let waiting = false;
  let stopped = false;
  return {
    ask() {
      if (waiting) return;
      waiting = true;
      soon(() => {
        waiting = false;
        if (!stopped) task();
      });
    },
    stop() {
      stopped = true;
    },
  };
}

/** With the next frame; a hidden page draws none, so there it is the next task. */
function whenDrawn(run: () => void): void {
  if (document.visibilityState === "visible") requestAnimationFrame(() => run());
  else setTimeout(run);
}
