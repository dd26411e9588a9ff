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
import { type DecodedUpdate, decodeUpdate } from "./decoded-update.ts";
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
  | { readonly kind: "refused"; readonly refusal: UpdateRefusal };

/**
 * Decides an update. What this keeps (see SPEC.md, W5): new content stands only under client ids of
 * the writer; nothing it refers to, deletes or follows is missing or circular, so that no peer is
 * left with pending parts; and bytes that repeat known content under whatever id are cut away, so
 * that a second version of it can never be stored.
 */
export function admit(asked: Asked, against: Against): Admission {
  const parts = decodeUpdate(asked.update);
  // Merging walks the clients downwards and loses what stands out of that order, others' work too.
  if (parts === undefined || !parts.isInOrder || parts.structCount > structsMax) {
    return { kind: "refused", refusal: "malformed" };
  }
  const { known } = against;
  const clients = clientsWithNews(parts, known);

  const refusal = refusalFor(clients, asked.member, against);
  if (refusal !== undefined) return { kind: "refused", refusal };
  const depths = new TypeDepths(known.depths);
  if (!placesAll(parts, known, (struct) => depths.note(struct))) {
    if (asked.as === "step-2") return { kind: "refused", refusal: "malformed" };
    return { kind: "gap" };
  }
  if (depths.deepest > typeDepthMax) return { kind: "refused", refusal: "malformed" };
  const isDeletionNew = parts.deletions.some(
    ({ client, range }) => !known.hasDeleted(client, range),
  );
  if (clients.length === 0 && !isDeletionNew) return { kind: "known" };
  return repeatsKnown(parts, known)
    ? withoutRepeats(asked.update, known, clients)
    : { kind: "new", update: asked.update, parts, clients };
}

function clientsWithNews(parts: DecodedUpdate, known: KnownState): readonly number[] {
  return [...parts.structs]
    .filter(([client, structs]) => (structs.at(-1)?.end ?? 0) > known.clockOf(client))
    .map(([client]) => client);
}

function refusalFor(
  clients: readonly number[],
  member: MemberId,
  { known, ownerOf }: Against,
): UpdateRefusal | undefined {
  if (clients.length > clientsPerUpdateMax) return "malformed";
  const isForeign = clients.some((client) => (ownerOf(client) ?? member) !== member);
  if (isForeign) return "foreign-client";
  const fresh = clients.filter((client) => known.clockOf(client) === 0).length;
  return known.clocks.size + fresh > clientsPerDocumentMax ? "document-full" : undefined;
}

function repeatsKnown(parts: DecodedUpdate, known: KnownState): boolean {
  return [...parts.structs].some(
    ([client, structs]) => (structs[0]?.start ?? 0) < known.clockOf(client),
  );
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
