/** Hostile bytes from a seed: frames that are none, and real updates bent until they lie. */
import * as encoding from "lib0/encoding";
import * as Y from "yjs";
import type { Chance } from "./seeded.ts";

/** What a page under a client id sends for a while: every kind of edit, and the whole of it. */
export function realUpdates(client: number): readonly Uint8Array[] {
  const doc = new Y.Doc();
  doc.clientID = client;
  const sent: Uint8Array[] = [];
  doc.on("update", (update: Uint8Array) => sent.push(update));
  const map = doc.getMap<unknown>("trial");
  const list = doc.getArray<unknown>("list");
  map.set("grip", "x-x-3-2-4-x");
  map.set("at", { bar: 3, beats: [0, 1.5, 2], isPush: true });
  list.insert(0, [1, "two", null, -4]);
  const inner = new Y.Map<unknown>();
  map.set("section", inner);
  inner.set("name", "Verse");
  inner.set("bars", new Y.Array<unknown>());
  const text = new Y.Text("swing it ♭");
  map.set("words", text);
  text.insert(3, "🎸 lightly");
  text.delete(0, 2);
  list.delete(1, 2);
  map.delete("section");
  map.set("grip", "3-x-0-0-0-3");
  return [...sent, Y.encodeStateAsUpdate(doc)];
}

/** Bytes that are no frame of the list, or a frame that promises what it does not hold. */
export function badFrame(chance: Chance): Uint8Array {
  return chance.pick(frameKinds)(chance);
}

/** A real update bent, or one that was made to harm. Victim: a client id that is somebody's. */
export function mutatedPayload(
  chance: Chance,
  real: readonly Uint8Array[],
  victim: number,
): Uint8Array {
  if (chance.happens(0.05)) return chance.pick(madeToHarm)(chance, victim);
  let bytes = chance.pick(real);
  for (let times = 1 + chance.below(3); times > 0; times -= 1) {
    bytes = chance.pick(mutations)(bytes, chance, real);
  }
  return bytes;
}

type Mutation = (
  bytes: Uint8Array,
  chance: Chance,
  real: readonly Uint8Array[],
) => Uint8Array<ArrayBuffer>;

const mutations: readonly Mutation[] = [
  (bytes, chance) => withByte(bytes, chance, (old) => old ^ (1 << chance.below(8))),
  (bytes, chance) => withByte(bytes, chance, () => chance.below(256)),
  (bytes, chance) => withByte(bytes, chance, (old) => old + 1),
  (bytes, chance) => bytes.slice(0, chance.below(bytes.length + 1)),
  (bytes, chance) => joined(bytes, someBytes(chance, 8)),
  // A length or count that claims more than there is.
  (bytes, chance) => {
    const at = chance.below(bytes.length + 1);
    return joined(bytes.slice(0, at), varUint(chance.pick(hugeCounts)), bytes.slice(at + 1));
  },
  (bytes, chance, real) => {
    const other = chance.pick(real);
    const at = chance.below(bytes.length + 1);
    return joined(bytes.slice(0, at), other.slice(chance.below(other.length)));
  },
  (bytes, chance) => {
    const at = chance.below(bytes.length + 1);
    const end = at + chance.below(bytes.length - at + 1);
    return joined(bytes.slice(0, end), bytes.slice(at));
  },
];

const hugeCounts: readonly number[] = [
  127,
  128,
  65_535,
  300_000,
  2 ** 31 - 1,
  2 ** 31,
  2 ** 32 - 1,
  2 ** 32,
  Number.MAX_SAFE_INTEGER,
];

const madeToHarm: readonly ((chance: Chance, victim: number) => Uint8Array)[] = [
  // Deletes what the victim has yet to write.
  (_, victim) => joined([0, 1], varUint(victim), [1], varUint(50), varUint(1_000_000)),
  // Fills the victim's clocks with nothing, so that its edits vanish.
  (chance, victim) =>
    joined([1, 1], varUint(victim), varUint(chance.below(200)), [0], varUint(2 ** 30), [0]),
  // A hole in somebody's clocks.
  (chance) => joined([1, 2], varUint(chance.below(2 ** 32)), [0, 10], varUint(5), [0, 1, 0]),
  // Claims structs that it does not have.
  (chance) => joined([1], varUint(chance.pick([1e5, 3e5, 2 ** 31])), [1, 0, 0]),
  (chance) => manyAuthors(chance.pick([2, 3, 513, 600]), chance),
  (chance) => deepValue(2 + chance.below(3_000), chance),
  (chance) => deepTypes(2 + chance.below(400), chance),
  // Clocks at the end of the numbers.
  (chance) => joined([1, 1], varUint(chance.below(2 ** 32)), varUint(2 ** 53 - 1), [0, 1, 0]),
];

function manyAuthors(count: number, chance: Chance): Uint8Array {
  const parts = Array.from({ length: count }, () => [
    ...joined([1], varUint(chance.below(2 ** 32)), [0, 0, 1]),
  ]);
  return joined(varUint(count), parts.flat(), [0]);
}

function deepValue(depth: number, chance: Chance): Uint8Array {
  let value: unknown = "deep";
  for (let i = 0; i < depth; i += 1) value = i % 2 === 0 ? [value] : { in: value };
  const doc = new Y.Doc();
  doc.clientID = chance.below(2 ** 32);
  doc.getMap<unknown>("trial").set("deep", value);
  return Y.encodeStateAsUpdate(doc);
}

function deepTypes(depth: number, chance: Chance): Uint8Array {
  const doc = new Y.Doc();
  doc.clientID = chance.below(2 ** 32);
  doc.transact(() => {
    let map = doc.getMap<unknown>("trial");
    for (let i = 0; i < depth; i += 1) {
      const inner = new Y.Map<unknown>();
      map.set("deep", inner);
      map = inner;
    }
  });
  return Y.encodeStateAsUpdate(doc);
}

const frameKinds: readonly ((chance: Chance) => Uint8Array)[] = [
  (chance) => someBytes(chance, 40),
  (chance) => joined(varUint(chance.pick([2, 4, 7, 99, 100, 101, 103, 105, 2 ** 31, 2 ** 53 - 1]))),
  (chance) => joined([2, chance.below(3)], someBytes(chance, 20)),
  (chance) => joined([100, 1, 0, chance.below(128)]),
  (chance) => joined([0, 3 + chance.below(200)], someBytes(chance, 20)),
  // A length beyond the end, in each place that has one.
  (chance) => joined([0, chance.below(3)], varUint(chance.pick(hugeCounts)), someBytes(chance, 9)),
  (chance) => joined([1], varUint(chance.pick(hugeCounts)), someBytes(chance, 9)),
  // State vectors and presence that say more entries than they have.
  (chance) => framed([0, 0], joined(varUint(chance.pick(hugeCounts)), someBytes(chance, 12))),
  (chance) => framed([1], joined(varUint(chance.pick(hugeCounts)), someBytes(chance, 12))),
  (chance) => framed([1], presence(chance, `{"member":"x","name":${nested(chance.below(2000))}}`)),
  (chance) => framed([1], presence(chance, chance.pick(['"', "null", "{}", "[", "\u0000", "9"]))),
  // Updates of noise.
  (chance) => framed([0, 1 + chance.below(2)], someBytes(chance, 60)),
  (chance) => framed([0, 2], new Uint8Array(chance.below(300)).fill(255)),
  (chance) => joined([102], someBytes(chance, 12)),
  (chance) => joined([104], someBytes(chance, 30)),
  () => new Uint8Array(12).fill(255),
  () => new Uint8Array(),
];

function nested(depth: number): string {
  return `${"[".repeat(depth)}${"]".repeat(depth)}`;
}

function presence(chance: Chance, state: string): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, 1);
  encoding.writeVarUint(encoder, chance.below(2 ** 32));
  encoding.writeVarUint(encoder, chance.pick([0, 1, 2 ** 31, Number.MAX_SAFE_INTEGER]));
  encoding.writeVarString(encoder, state);
  return encoding.toUint8Array(encoder);
}

function framed(head: readonly number[], body: Uint8Array): Uint8Array {
  return joined(head, varUint(body.length), body);
}

function withByte(bytes: Uint8Array, chance: Chance, change: (old: number) => number) {
  const changed = Uint8Array.from(bytes);
  const at = chance.below(bytes.length);
  changed[at] = change(changed[at] ?? 0);
  return changed;
}

function someBytes(chance: Chance, most: number): Uint8Array {
  return Uint8Array.from({ length: chance.below(most + 1) }, () => chance.below(256));
}

function varUint(value: number): Uint8Array {
  return encoding.encode((encoder) => encoding.writeVarUint(encoder, value));
}

function joined(...parts: readonly ArrayLike<number>[]): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(parts.flatMap((part) => Array.from(part)));
}
