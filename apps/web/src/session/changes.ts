/**
 * Follows the changes made here to one document until the server says that they are on its disk.
 */
import { type Accessor, createSignal } from "solid-js";
import * as Y from "yjs";
import { remember, remembered } from "./remembered.ts";
import {
  type Change,
  decodeChanges,
  encodeChanges,
  isWithin,
  notStored,
  type StateVector,
  sentIn,
  unsent,
  withChange,
} from "./unsaved.ts";

export type Changes = {
  /** How many are not known to be stored; remembered between visits. */
  readonly count: Accessor<number>;
  /** Whether all that this browser had kept is known to be stored. */
  readonly confirmed: Accessor<boolean>;
  /** What this browser kept is now in the document. */
  onLoaded(): void;
  /** A new socket opened, or the server wants everything once more. */
  onUnsent(): void;
  /** A frame went out that answers what the server lacks. */
  onAnswered(frame: number): void;
  /** The server left the last answer aside, and will ask again. */
  onLeftAside(): void;
  /** The server has decided on so many frames, and stored everything up to a state vector. */
  onSaved(stored: StateVector, decided: number): void;
  /** Stops following. */
  stop(): void;
  /** Stops following and remembers nothing. */
  forget(): void;
};

/**
 * Follows a document under a name in this browser; `lastFrame` is that of the socket, if one is
 * open.
 */
export function followChanges(
  doc: Y.Doc,
  name: string,
  lastFrame: () => number | undefined,
): Changes {
  const [changes, setChanges] = createSignal(remembered(name, decodeChanges) ?? []);
  const [confirmed, setConfirmed] = createSignal(false);
  let kept: StateVector | undefined;
  let answer: number | undefined;
  let lastAnswer = 0;

  const note = (next: readonly Change[]) => {
    if (next.length !== changes().length) {
      remember(name, next.length === 0 ? undefined : encodeChanges(next));
    }
    setChanges(next);
  };
  // The socket heard of the update before this does, so the frame that carries it is out.
  const onUpdate = (_update: Uint8Array, _origin: unknown, _doc: Y.Doc, made: Y.Transaction) => {
    if (!made.local) return;
    const clock = Y.getState(doc.store, doc.clientID);
    note(withChange(changes(), { client: doc.clientID, clock, frame: lastFrame() }));
  };
  doc.on("update", onUpdate);
  const stop = () => doc.off("update", onUpdate);
  return {
    count: () => changes().length,
    confirmed,
    onLoaded() {
      // Remembered is not kept: the browser may have lost the content of a change it counts.
      note(changes().filter(({ client, clock }) => clock <= Y.getState(doc.store, client)));
      kept = Y.decodeStateVector(Y.encodeStateVector(doc));
    },
    onUnsent() {
      answer = undefined;
      lastAnswer = 0;
      note(unsent(changes()));
    },
    onLeftAside() {
      answer = undefined;
      note(unsent(changes(), lastAnswer));
    },
    onAnswered(frame) {
      answer ??= frame;
      lastAnswer = frame;
      note(sentIn(changes(), frame));
    },
    onSaved(stored, decided) {
      note(notStored(changes(), stored, decided));
      const answered = answer !== undefined && answer <= decided;
      if (answered && kept !== undefined && isWithin(kept, stored)) setConfirmed(true);
    },
    stop,
    forget() {
      stop();
      note([]);
    },
  };
}
