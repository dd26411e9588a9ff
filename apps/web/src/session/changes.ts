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
  /** Whether a change was made here whose content neither this browser nor the server has. */
  readonly areSomeLost: Accessor<boolean>;
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
  const lost = followLost();
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
  const stop = followOwn(doc, (client, clock) =>
    note(withChange(changes(), { client, clock, frame: lastFrame() })),
  );
  return {
    count: () => changes().length,
    confirmed,
    areSomeLost: lost.areSome,
    onLoaded() {
      // Remembered is not kept: the browser may have lost the content of a change it counts.
      note(lost.withoutLost(changes(), doc));
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
      lost.onSaved(stored);
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

/** Tells of each change made here, with its client's clock after it; until the end it gives. */
function followOwn(doc: Y.Doc, tell: (client: number, clock: number) => void): () => void {
  const onUpdate = (_update: Uint8Array, _origin: unknown, _doc: Y.Doc, made: Y.Transaction) => {
    if (made.local) tell(doc.clientID, Y.getState(doc.store, doc.clientID));
  };
  doc.on("update", onUpdate);
  return () => doc.off("update", onUpdate);
}

/** Changes that are remembered while their content is gone here; the server may have it still. */
function followLost() {
  const [areSome, setSome] = createSignal(false);
  let missing: readonly Change[] = [];
  return {
    areSome,
    withoutLost(changes: readonly Change[], doc: Y.Doc): readonly Change[] {
      const isHere = ({ client, clock }: Change) => clock <= Y.getState(doc.store, client);
      missing = changes.filter((change) => !isHere(change));
      return changes.filter(isHere);
    },
    onSaved: (stored: StateVector) =>
      setSome(missing.some(({ client, clock }) => clock > (stored.get(client) ?? 0))),
  };
}
