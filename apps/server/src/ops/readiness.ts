/**
 * Whether this process should be sent work: it is not stopping, and its store takes writes. While
 * the store's schema is brought up to date nothing listens yet, which says the same.
 */
import { randomBytes } from "node:crypto";
import { documentNames, emptyDocuments } from "@halflap/board/documents";
import type { BoardId } from "@halflap/wire/api";
import { updateBytesMax } from "@halflap/wire/limits";
import * as Y from "yjs";
import type { NewBoard, People } from "../store/people-port.ts";
import { hashOf, makeBoardId, makeMemberId, makeMessageId, makeSecret } from "../store/secret.ts";

export type Readiness = {
  /** "ready", or why not. */
  now(): Promise<"ready" | "draining" | "unwritable">;
  /** From here on it is stopping. */
  drain(): void;
  readonly isDraining: boolean;
};

export type ReadinessPorts = {
  /** Whether the last commit succeeded. */
  isTakingRows(): boolean;
  /** Rejects when nothing can be written. */
  tryWriting(): Promise<void>;
  /** Milliseconds that never go back. */
  readonly clock: () => number;
};

/** A store that failed is tried no more often than this, however often somebody asks. */
const tryEveryMs = 2_000;

/** Watches a store: what the last commit said, and a trial once that was a failure. */
export function makeReadiness({ isTakingRows, tryWriting, clock }: ReadinessPorts): Readiness {
  let isDraining = false;
  let triedAt = Number.NEGATIVE_INFINITY;
  let trial: Promise<boolean> = Promise.resolve(true);
  const isWritable = () => {
    if (isTakingRows()) return Promise.resolve(true);
    if (clock() - triedAt >= tryEveryMs) {
      triedAt = clock();
      trial = tryWriting().then(
        () => true,
        () => false,
      );
    }
    return trial;
  };
  return {
    async now() {
      if (isDraining) return "draining";
      return (await isWritable()) ? "ready" : "unwritable";
    },
    drain() {
      isDraining = true;
    },
    get isDraining() {
      return isDraining;
    },
  };
}

/** So much is written for a trial: where less fits, the next edit may not. */
const trialBytes = updateBytesMax;

/**
 * What comes back writes a board that nobody can open, and removes it again; it rejects when there
 * is no room or no store. One that could not be removed is removed before the next is written.
 */
export function boardTrial(people: People, now: () => number): () => Promise<void> {
  let left: BoardId | undefined;
  const removeLeft = async () => {
    if (left !== undefined) await people.removeBoard(left);
    left = undefined;
  };
  return async () => {
    await removeLeft();
    const board = makeBoardId();
    left = board; // a store that fails may not say whether it made it
    await people.makeBoard(trialBoard(board, now()));
    await removeLeft();
  };
}

function trialBoard(board: BoardId, at: number): NewBoard {
  const documents = emptyDocuments(); // a row in each, as every board has
  documents.board.getText("trial").insert(0, randomBytes(trialBytes / 2).toString("hex"));
  return {
    id: board,
    leader: { id: makeMemberId(), name: "trial", role: "leader" },
    session: hashOf(makeSecret()),
    at,
    rows: documentNames.map((document) => ({
      key: { board, document },
      message: makeMessageId(),
      update: Y.encodeStateAsUpdate(documents[document]),
      bindings: [],
    })),
    isTrial: true,
  };
}
