/**
 * A Yjs update in pieces that are small enough to be sent, in an order in which each can be taken
 * in at once.
 */
import * as Y from "yjs";

export type PieceLimits = {
  readonly bytesMax: number;
  /** Authors of what a piece brings. */
  readonly authorsMax: number;
};

type Struct = Y.Item | Y.GC;
type Deleted = { readonly client: number; readonly clock: number; readonly len: number };

/** More than the head of an author's part, or a deleted range, can take. */
const headBytes = 16;

/**
 * The pieces, first one first; they follow on what the update itself followed on. Undefined when a
 * single thing in it is larger than a piece may be, or it follows no order.
 */
export function piecesOf(
  update: Uint8Array,
  limits: PieceLimits,
): readonly Uint8Array[] | undefined {
  const { structs, ds } = Y.decodeUpdate(update);
  const inOrder = ordered(structs.filter((struct) => !(struct instanceof Y.Skip)));
  const groups = inOrder && grouped(inOrder, limits);
  if (groups === undefined) return undefined;
  const deleted = [...ds.clients].flatMap(([client, ranges]) =>
    ranges.map(({ clock, len }) => ({ client, clock, len })),
  );
  return [
    ...groups.map((group) => encoded(group, [])),
    ...chunks(deleted, Math.floor(limits.bytesMax / (2 * headBytes))).map((some) =>
      encoded([], some),
    ),
  ];
}

/** Each after all that it refers to; undefined when there is no such order. */
function ordered(structs: readonly Struct[]): readonly Struct[] | undefined {
  const queues = byAuthor(structs);
  const heads = new Map([...queues.keys()].map((client) => [client, 0]));
  const headOf = (client: number) => queues.get(client)?.[heads.get(client) ?? 0];
  /** The author whose next thing must come first; undefined when nothing is waited for. */
  const waitsFor = (struct: Struct) =>
    referred(struct).find(({ client, clock }) => {
      const head = headOf(client);
      return head !== undefined && head !== struct && clock >= head.id.clock;
    })?.client;
  const inOrder: Struct[] = [];
  for (const client of queues.keys()) {
    const waiting = [client];
    for (let top = waiting.at(-1); top !== undefined; top = waiting.at(-1)) {
      const head = headOf(top);
      const first = head && waitsFor(head);
      if (first !== undefined) {
        if (waiting.length > queues.size) return undefined;
        waiting.push(first);
        continue;
      }
      if (head !== undefined) {
        inOrder.push(head);
        heads.set(top, (heads.get(top) ?? 0) + 1);
      }
      if (head === undefined || waiting.length > 1) waiting.pop();
    }
  }
  return inOrder;
}

function referred(struct: Struct): readonly Y.ID[] {
  if (!(struct instanceof Y.Item)) return [];
  const { origin, rightOrigin, parent } = struct;
  return [origin, rightOrigin, parent].filter((each) => each instanceof Y.ID);
}

/** As many in a row as a piece may hold; undefined when one alone is too large. */
function grouped(
  structs: readonly Struct[],
  { bytesMax, authorsMax }: PieceLimits,
): readonly (readonly Struct[])[] | undefined {
  const groups: Struct[][] = [];
  let authors = new Set<number>();
  let bytes = Number.POSITIVE_INFINITY;
  for (const struct of structs) {
    const own = sizeOf(struct);
    if (own + 2 * headBytes > bytesMax) return undefined;
    const head = authors.has(struct.id.client) ? 0 : headBytes;
    const isFull = bytes + own + head > bytesMax || (head > 0 && authors.size >= authorsMax);
    if (isFull) {
      groups.push([]);
      authors = new Set();
      bytes = headBytes;
    }
    groups.at(-1)?.push(struct);
    bytes += own + (authors.has(struct.id.client) ? 0 : headBytes);
    authors.add(struct.id.client);
  }
  return groups;
}

function sizeOf(struct: Struct): number {
  const encoder = new Y.UpdateEncoderV1();
  struct.write(encoder, 0);
  return encoder.toUint8Array().length;
}

/** Yjs's first update format: authors in falling order, then what is deleted. */
function encoded(structs: readonly Struct[], deleted: readonly Deleted[]): Uint8Array {
  const encoder = new Y.UpdateEncoderV1();
  const authors = [...byAuthor(structs)].sort(([a], [b]) => b - a);
  encoder.writeLen(authors.length);
  for (const [client, own] of authors) {
    encoder.writeLen(own.length);
    encoder.writeClient(client);
    encoder.writeLen(own[0]?.id.clock ?? 0);
    for (const struct of own) struct.write(encoder, 0);
  }
  const ranges = new Map<number, Deleted[]>();
  for (const each of deleted) {
    ranges.set(each.client, [...(ranges.get(each.client) ?? []), each]);
  }
  encoder.writeLen(ranges.size);
  for (const [client, own] of ranges) {
    encoder.writeLen(client);
    encoder.writeLen(own.length);
    for (const { clock, len } of own) {
      encoder.writeLen(clock);
      encoder.writeLen(len);
    }
  }
  return encoder.toUint8Array();
}

function byAuthor(structs: readonly Struct[]): ReadonlyMap<number, readonly Struct[]> {
  const authors = new Map<number, Struct[]>();
  for (const struct of structs) {
    const own = authors.get(struct.id.client);
    if (own === undefined) authors.set(struct.id.client, [struct]);
    else own.push(struct);
  }
  return authors;
}

function chunks<T>(all: readonly T[], size: number): readonly (readonly T[])[] {
  return Array.from({ length: Math.ceil(all.length / size) }, (_, i) =>
    all.slice(i * size, (i + 1) * size),
  );
}
