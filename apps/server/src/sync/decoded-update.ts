/**
 * An update taken apart without a document: its structs in order, its deletions, and how far each
 * client gets.
 */
import { clientIdMax, clockMax, valueDepthMax } from "@halflap/wire/limits";
import * as Y from "yjs";
import type { Range } from "./delete-ranges.ts";

export type StructId = { readonly client: number; readonly clock: number };

/** One piece of new content, with everything that must exist before it. */
export type Struct = {
  readonly client: number;
  readonly start: number;
  readonly end: number;
  readonly needs: readonly StructId[];
  /** What says where it lies: its parent, or a neighbour; undefined = straight in the document. */
  readonly under: { readonly id: StructId; readonly isInside: boolean } | undefined;
};

export type DecodedUpdate = {
  readonly structCount: number;
  /** By client, in clock order, without holes: the next starts where the one before ends. */
  readonly structs: ReadonlyMap<number, readonly Struct[]>;
  /** Whether its clients come once each, the greatest first, as every writer of Yjs puts them. */
  readonly isInOrder: boolean;
  readonly deletions: readonly { readonly client: number; readonly range: Range }[];
};

type YStruct = ReturnType<typeof Y.decodeUpdate>["structs"][number];

/**
 * The parts of an untrusted update; undefined when it can't be read to its end, leaves a hole,
 * names an impossible id or clock, or holds content of a kind that a board never has
 * (sub-documents, binary, XML, embeds, formats) or that is nested too deep. Decoding allocates in
 * proportion to the bytes, not to what the bytes claim; a claim beyond them fails at the end of the
 * buffer.
 */
export function decodeUpdate(update: Uint8Array): DecodedUpdate | undefined {
  const decoded = decodeWhole(update);
  if (decoded === undefined) return undefined;
  const structs = new Map<number, Struct[]>();
  let isInOrder = true;
  let latest = Number.POSITIVE_INFINITY;
  for (const each of decoded.structs) {
    const struct = structOf(each);
    if (struct === undefined) return undefined;
    if (struct.client > latest) isInOrder = false;
    latest = struct.client;
    const before = structs.get(struct.client);
    if (before === undefined) structs.set(struct.client, [struct]);
    else if (before.at(-1)?.end === struct.start) before.push(struct);
    else return undefined;
  }
  const deletions: { client: number; range: Range }[] = [];
  for (const [client, items] of decoded.ds.clients) {
    for (const { clock, len } of items) {
      if (!isIdRange(client, clock, len)) return undefined;
      deletions.push({ client, range: { start: clock, end: clock + len } });
    }
  }
  return { structCount: decoded.structs.length, structs, isInOrder, deletions };
}

/** Whether an update leaves a hole, as an answer does while what comes before is on its way. */
export function leavesHole(update: Uint8Array): boolean {
  return decodeWhole(update)?.structs.some((struct) => struct instanceof Y.Skip) ?? false;
}

/** Remembers the newest, since what reads an update does not hand its decoder out. */
class Watched extends Y.UpdateDecoderV1 {
  static newest: Watched | undefined;

  constructor(decoder: ConstructorParameters<typeof Y.UpdateDecoderV1>[0]) {
    super(decoder);
    Watched.newest = this;
  }
}

/** Bytes after the end would be stored and passed on unread, so they make the update unreadable. */
function decodeWhole(update: Uint8Array): ReturnType<typeof Y.decodeUpdate> | undefined {
  try {
    const decoded = Y.decodeUpdateV2(update, Watched);
    const rest = Watched.newest?.restDecoder;
    Watched.newest = undefined;
    return rest !== undefined && rest.pos === rest.arr.length ? decoded : undefined;
  } catch {
    return undefined; // lib0 throws on every kind of broken bytes
  }
}

function structOf(struct: YStruct): Struct | undefined {
  const { client, clock } = struct.id;
  if (struct instanceof Y.Skip || !isIdRange(client, clock, struct.length)) return undefined;
  const start = clock;
  const end = clock + struct.length;
  if (struct instanceof Y.GC) return { client, start, end, needs: [], under: undefined };
  if (!(struct instanceof Y.Item) || !isBoardContent(struct.content)) return undefined;
  const parent: unknown = struct.parent;
  const needs: StructId[] = [];
  if (struct.origin !== null) needs.push(struct.origin);
  if (struct.rightOrigin !== null) needs.push(struct.rightOrigin);
  const [neighbour] = needs;
  if (!(parent instanceof Y.ID)) {
    return { client, start, end, needs, under: neighbour && { id: neighbour, isInside: false } };
  }
  needs.push(parent);
  return { client, start, end, needs, under: { id: parent, isInside: true } };
}

function isIdRange(client: number, clock: number, length: number): boolean {
  return client <= clientIdMax && length >= 1 && clock + length <= clockMax;
}

function isBoardContent(content: unknown): boolean {
  if (content instanceof Y.ContentAny) {
    return content.arr.every((value) => isShallow(value, valueDepthMax));
  }
  if (content instanceof Y.ContentType) {
    const type: unknown = content.type;
    const isXml = type instanceof Y.XmlElement || type instanceof Y.XmlFragment;
    return !isXml && !(type instanceof Y.XmlText) && !(type instanceof Y.XmlHook);
  }
  return content instanceof Y.ContentString || content instanceof Y.ContentDeleted;
}

function isShallow(value: unknown, depthLeft: number): boolean {
  if (value instanceof Uint8Array) return false;
  if (typeof value !== "object" || value === null) return true;
  return depthLeft > 0 && Object.values(value).every((inner) => isShallow(inner, depthLeft - 1));
}
