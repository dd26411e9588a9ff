/**
 * The check of an untrusted update, by its bytes alone: whether it may be stored and passed on, and
 * as what.
 */
import type { MemberId } from "@halflap/board/board";
import {
  clientsPerDocumentMax,
  clientsPerUpdateMax,
  structsMax,
  typeDepthMax,
} from "@halflap/wire/limits";
import type { UpdateRefusal } from "@halflap/wire/messages";
import * as Y from "yjs";
import { type DecodedUpdate, decodeUpdate, leavesHole } from "./decoded-update.ts";
import type { KnownState } from "./known-state.ts";
import { placesAll } from "./placing.ts";
import { TypeDepths } from "./type-depths.ts";

export type Asked = {
  readonly update: Uint8Array;
  readonly member: MemberId;
  /**
   * Step 2 answers our step 1, so nothing may be missing before it; an edit may run ahead of the
   * first sync.
   */
  readonly as: "step-2" | "edit";
};

export type Against = {
  readonly known: KnownState;
  /** Whose a client id is; undefined while nobody has written under it. */
  ownerOf(client: number): MemberId | undefined;
  /** Whether the disk knows whose it is. */
  isBound(client: number): boolean;
};

export type Admission =
  /**
   * `update` is what to store and pass on: the bytes as they came unless they repeat something
   * known.
   */
  | {
      readonly kind: "new";
      readonly update: Uint8Array;
      readonly parts: DecodedUpdate;
      readonly clients: readonly number[];
    }
  | { readonly kind: "known" }
  /** Something before it is missing: ask with step 1 instead of storing. */
  | { readonly kind: "gap" }
  /**
   * An answer to step 1 with what others wrote and the disk lacks: it was passed on and lost, and
   * its authors bring it. `hasOwn` says whether there is content of the writer's own beside it;
   * `hasDeletions`, whether there are deletions that are not known: whose they are, nothing tells.
   */
  | { readonly kind: "others"; readonly hasOwn: boolean; readonly hasDeletions: boolean }
  /** An answer to step 1 that builds on something which is neither known nor in it. */
  | { readonly kind: "unplaced" }
  | { readonly kind: "refused"; readonly refusal: UpdateRefusal };

/**
 * Decides an update. What this keeps (see SPEC.md, W5): new content stands only under client ids of
 * the writer; nothing it refers to, deletes or follows is missing or circular, so that no peer is
 * left with pending parts; and bytes that repeat known content under whatever id are cut away, so
 * that a second version of it can never be stored.
 */
export function admit(asked: Asked, against: Against): Admission {
  const parts = decodeUpdate(asked.update);
  const isAnswer = asked.as === "step-2";
  if (parts === undefined && isAnswer && leavesHole(asked.update)) return { kind: "unplaced" };
  // Merging walks the clients downwards and loses what stands out of that order, others' work too.
  if (parts === undefined || !parts.isInOrder || parts.structCount > structsMax) {
    return { kind: "refused", refusal: "malformed" };
  }
  const { known } = against;
  const clients = clientsWithNews(parts, known);

  if (clients.length > clientsPerUpdateMax) return { kind: "refused", refusal: "malformed" };
  const foreign = clients.filter((client) => isForeign(client, asked.member, against));
  if (foreign.length > 0) return foreignAdmission(asked, foreign, { parts, clients, against });
  if (authorsWith(clients, known) > clientsPerDocumentMax) {
    return { kind: "refused", refusal: "document-full" };
  }
  const depths = new TypeDepths(known.depths);
  if (!placesAll(parts, known, (struct) => depths.note(struct))) {
    return { kind: isAnswer ? "unplaced" : "gap" };
  }
  if (depths.deepest > typeDepthMax) return { kind: "refused", refusal: "malformed" };
  if (clients.length === 0 && !deletesMore(parts, known)) return { kind: "known" };
  return repeatsKnown(parts, known)
    ? withoutRepeats(asked.update, known, clients)
    : { kind: "new", update: asked.update, parts, clients };
}

function deletesMore({ deletions }: DecodedUpdate, known: KnownState): boolean {
  return deletions.some(({ client, range }) => !known.hasDeleted(client, range));
}

function clientsWithNews(parts: DecodedUpdate, known: KnownState): readonly number[] {
  const clients: number[] = [];
  for (const [client, structs] of parts.structs) {
    if ((structs.at(-1)?.end ?? 0) > known.clockOf(client)) clients.push(client);
  }
  return clients;
}

function isForeign(client: number, member: MemberId, against: Against): boolean {
  return (against.ownerOf(client) ?? member) !== member;
}

/** Of an update with news under others' client ids. */
function foreignAdmission(
  { as }: Asked,
  foreign: readonly number[],
  {
    parts,
    clients,
    against,
  }: {
    readonly parts: DecodedUpdate;
    readonly clients: readonly number[];
    readonly against: Against;
  },
): Admission {
  const mayHaveHeard = as === "step-2" && foreign.every((client) => against.isBound(client));
  if (!mayHaveHeard) return { kind: "refused", refusal: "foreign-client" };
  return {
    kind: "others",
    hasOwn: foreign.length < clients.length,
    hasDeletions: deletesMore(parts, against.known),
  };
}

/** How many authors a document has with these. */
function authorsWith(clients: readonly number[], known: KnownState): number {
  let count = known.clocks.size;
  for (const client of clients) if (known.clockOf(client) === 0) count += 1;
  return count;
}

function repeatsKnown(parts: DecodedUpdate, known: KnownState): boolean {
  for (const [client, structs] of parts.structs) {
    if ((structs[0]?.start ?? 0) < known.clockOf(client)) return true;
  }
  return false;
}

function withoutRepeats(
  update: Uint8Array,
  known: KnownState,
  clients: readonly number[],
): Admission {
  const cut = Y.diffUpdate(update, known.stateVector());
  const parts = decodeUpdate(cut);
  if (parts === undefined) return { kind: "refused", refusal: "malformed" };
  return { kind: "new", update: cut, parts, clients };
}
