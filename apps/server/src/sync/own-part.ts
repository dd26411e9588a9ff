/**
 * What somebody wrote themselves, out of an answer that also shows others' lost work. Of two pages
 * that each lost something and heard the other's, neither could bring its own otherwise.
 */
import * as encoding from "lib0/encoding";
import * as Y from "yjs";
import { decodeUpdate } from "./decoded-update.ts";
import type { KnownState } from "./known-state.ts";
import { placeMost } from "./placing.ts";

/**
 * The content under one's own client ids that builds on nothing but what is known and itself, as an
 * update without deletions; undefined when there is none. The update was read before.
 */
export function ownPart(
  update: Uint8Array,
  isOwn: (client: number) => boolean,
  known: KnownState,
): Uint8Array | undefined {
  const parts = decodeUpdate(update);
  if (parts === undefined) return undefined;
  const own = new Map([...parts.structs].filter(([client]) => isOwn(client)));
  const { clockOf } = placeMost(own, known, () => undefined);
  const taken = Y.decodeUpdate(update).structs.filter(
    ({ id: { client, clock }, length }) => own.has(client) && clock + length <= clockOf(client),
  );
  return taken.length === 0 ? undefined : encoded(taken);
}

/** Yjs's first update format; its authors come in falling order, as they did in the update. */
function encoded(structs: ReturnType<typeof Y.decodeUpdate>["structs"]): Uint8Array {
  const authors = new Map<number, typeof structs>();
  for (const struct of structs) {
    const own = authors.get(struct.id.client);
    if (own === undefined) authors.set(struct.id.client, [struct]);
    else own.push(struct);
  }
  const encoder = new Y.UpdateEncoderV1();
  encoding.writeVarUint(encoder.restEncoder, authors.size);
  for (const [client, own] of authors) {
    encoding.writeVarUint(encoder.restEncoder, own.length);
    encoder.writeClient(client);
    encoding.writeVarUint(encoder.restEncoder, own[0]?.id.clock ?? 0);
    for (const struct of own) struct.write(encoder, 0);
  }
  encoding.writeVarUint(encoder.restEncoder, 0);
  return encoder.toUint8Array();
}
