/**
 * W5, the check of updates: honest ones pass untouched, hostile ones are refused before anything is
 * built.
 */
import { memberId } from "@halflap/board/talk";
import fc from "fast-check";
import * as encoding from "lib0/encoding";
import { expect, test } from "vitest";
import * as Y from "yjs";
import { type Admission, admit } from "./admission.ts";
import { decodeUpdate } from "./decoded-update.ts";
import { KnownState } from "./known-state.ts";

const ada = memberId("ada");
const ben = memberId("ben");

/** A document of a given client id, with what each of its transactions sent. */
function writer(client: number, from?: Uint8Array) {
  const doc = new Y.Doc();
  doc.clientID = client;
  if (from !== undefined) Y.applyUpdate(doc, from);
  const sent: Uint8Array[] = [];
  doc.on("update", (update: Uint8Array) => sent.push(update));
  return { doc, map: doc.getMap<unknown>("m"), sent, last: () => sent.at(-1) ?? new Uint8Array() };
}

/** The server's side: what it knows, and who writes under which id; the disk knows all but one. */
function document(owners: Readonly<Record<number, typeof ada>> = {}, unsure?: number) {
  const known = new KnownState();
  const bound = new Map(Object.entries(owners).map(([id, member]) => [Number(id), member]));
  const ask = (update: Uint8Array, member = ada, as: "edit" | "step-2" = "edit") => {
    const against = {
      known,
      ownerOf: (id: number) => bound.get(id),
      isBound: (id: number) => bound.has(id) && id !== unsure,
    };
    const admission = admit({ update, member, as }, against);
    if (admission.kind === "new") {
      known.add(admission.parts);
      for (const client of admission.clients) bound.set(client, member);
    }
    return admission;
  };
  return { known, ask };
}

function refusal(admission: Admission): string {
  return admission.kind === "refused" ? admission.refusal : admission.kind;
}

test("an honest edit passes as the very bytes that came, and only once", () => {
  const { map, last } = writer(1);
  const { ask } = document();
  map.set("a", 1);
  const admission = ask(last());
  expect(admission).toMatchObject({ kind: "new", update: last(), clients: [1] });
  expect(ask(last()).kind).toBe("known");
});

test("a deletion alone is news once, and then known", () => {
  const { map, last } = writer(1);
  const { ask } = document();
  map.set("a", 1);
  ask(last());
  map.delete("a");
  expect(ask(last()).kind).toBe("new");
  expect(ask(last()).kind).toBe("known");
});

test("an edit ahead of what is known is asked for, not stored", () => {
  const { map, last, doc } = writer(1);
  const { ask } = document();
  map.set("a", 1);
  map.set("b", 2);
  expect(ask(last()).kind).toBe("gap");
  expect(ask(Y.encodeStateAsUpdate(doc), ada, "step-2").kind).toBe("new");
});

test("a deletion of something that is not there yet is never stored", () => {
  const { map, doc } = writer(1);
  map.set("a", 1);
  const { ask } = document();
  const onlyDeletion = deletionOf(1, 0, 1_000_000);
  expect(onlyDeletion.length).toBeLessThanOrEqual(8);
  expect(ask(onlyDeletion, ben).kind).toBe("gap");
  expect(ask(onlyDeletion, ben, "step-2").kind).toBe("unplaced");
  expect(ask(Y.encodeStateAsUpdate(doc), ada).kind).toBe("new");
});

test("content under another's client id is refused, also as GC", () => {
  const { map, last } = writer(1);
  const { ask } = document();
  map.set("a", 1);
  ask(last(), ada);
  map.set("b", 2);
  expect(refusal(ask(last(), ben))).toBe("foreign-client");
  expect(refusal(ask(gcOf(1, 1, 2 ** 30), ben))).toBe("foreign-client");
  expect(ask(last(), ada).kind).toBe("new");
});

test("an answer to step 1 with content of others that is not there is left to its authors", () => {
  const first = writer(1);
  const { ask } = document();
  first.map.set("a", 1);
  ask(first.last(), ada);
  first.map.set("b", 2);
  const second = writer(2, Y.encodeStateAsUpdate(first.doc));
  const heard = Y.encodeStateAsUpdate(second.doc);
  const lacking = { kind: "others", hasOwn: false, hasDeletions: false };
  expect(ask(heard, ben, "step-2")).toEqual(lacking);
  second.map.set("c", 3);
  const withOwn = Y.encodeStateAsUpdate(second.doc);
  expect(ask(withOwn, ben, "step-2")).toEqual({ ...lacking, hasOwn: true });
  second.map.delete("a");
  const withAll = Y.encodeStateAsUpdate(second.doc);
  expect(ask(withAll, ben, "step-2")).toMatchObject({ hasOwn: true, hasDeletions: true });
  ask(first.last(), ada);
  expect(ask(withAll, ben, "step-2").kind).toBe("new");
});

test("in step 2 too, content under an id that only memory knows as another's is refused", () => {
  const { map, last } = writer(1);
  const { ask } = document({ 1: ada }, 1);
  map.set("a", 1);
  expect(refusal(ask(last(), ben, "step-2"))).toBe("foreign-client");
});

test("known content of others passes in step 2, and only the news of it is kept", () => {
  const first = writer(1);
  const { ask } = document();
  first.map.set("a", 1);
  ask(first.last(), ada);
  const second = writer(2, Y.encodeStateAsUpdate(first.doc));
  second.map.set("b", 2);
  const admission = ask(Y.encodeStateAsUpdate(second.doc), ben, "step-2");
  const kept = admission.kind === "new" ? decodeUpdate(admission.update) : undefined;
  expect([...(kept?.structs.keys() ?? [])]).toEqual([2]);
});

test("authors out of order are refused: a merge with them would lose others' content", () => {
  const nothing = (client: number) => [1, client, 0, 0, 1];
  const { ask } = document();
  expect(refusal(ask(new Uint8Array([2, ...nothing(3), ...nothing(5), 0])))).toBe("malformed");
  const sandwich = [3, ...nothing(5), ...nothing(3), 1, 5, 1, 0, 1, 0];
  expect(refusal(ask(new Uint8Array(sandwich)))).toBe("malformed");
  expect(ask(new Uint8Array([2, ...nothing(5), ...nothing(3), 0])).kind).toBe("new");
});

test("a second version of known content is cut away, so that no newcomer can be given it", () => {
  const honest = writer(1);
  const { ask } = document();
  honest.map.set("a", "true");
  const stored = honest.last();
  ask(stored, ada);
  const forged = writer(1);
  forged.map.set("a", "forged");
  const other = writer(2, forged.last());
  other.map.set("b", 1);
  const admission = ask(Y.encodeStateAsUpdate(other.doc), ben, "step-2");
  const kept = admission.kind === "new" ? admission.update : new Uint8Array();
  const newcomer = new Y.Doc();
  Y.applyUpdate(newcomer, Y.mergeUpdates([stored, kept]));
  expect(newcomer.getMap("m").toJSON()).toEqual({ a: "true", b: 1 });
});

test("content that needs itself in a circle is refused", () => {
  const { ask } = document();
  const circle = structsOf([
    { client: 1, clock: 0, origin: [2, 0] },
    { client: 2, clock: 0, origin: [1, 0] },
  ]);
  expect(refusal(ask(circle, ada, "step-2"))).toBe("malformed");
});

test("content that hangs on something unknown is a gap as an edit, and unplaced in step 2", () => {
  const { ask } = document();
  const hanging = structsOf([{ client: 1, clock: 0, origin: [9, 5] }]);
  expect(ask(hanging, ada).kind).toBe("gap");
  expect(ask(hanging, ada, "step-2").kind).toBe("unplaced");
});

test.each([
  ["a sub-document", (map: Y.Map<unknown>) => map.set("x", new Y.Doc())],
  ["bytes", (map: Y.Map<unknown>) => map.set("x", new Uint8Array(3))],
  ["XML", (map: Y.Map<unknown>) => map.set("x", new Y.XmlElement("a"))],
  ["a value 100 lists deep", (map: Y.Map<unknown>) => map.set("x", nested(100))],
])("%s is refused", (_name, write) => {
  const { map, last } = writer(1);
  write(map);
  expect(refusal(document().ask(last()))).toBe("malformed");
});

test.each([
  ["a map", (map: Y.Map<unknown>) => map.set("x", new Y.Map())],
  ["a list", (map: Y.Map<unknown>) => map.set("x", new Y.Array())],
  ["a text", (map: Y.Map<unknown>) => map.set("x", new Y.Text("words"))],
  ["a plain object 60 deep", (map: Y.Map<unknown>) => map.set("x", nested(60))],
])("%s passes", (_name, write) => {
  const { map, last } = writer(1);
  write(map);
  expect(document().ask(last()).kind).toBe("new");
});

test("ten bytes that claim thirty million structs are refused", () => {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, 1);
  encoding.writeVarUint(encoder, 30_000_000);
  encoding.writeVarUint(encoder, 1);
  encoding.writeVarUint(encoder, 0);
  expect(refusal(document().ask(encoding.toUint8Array(encoder)))).toBe("malformed");
});

test.each([
  ["a client id above 32 bits", gcOf(2 ** 40, 0, 1)],
  ["a clock above 31 bits", gcOf(1, 0, 2 ** 31)],
  ["nothing at all", new Uint8Array()],
  ["bytes after the end", new Uint8Array([0, 0, 1])],
])("%s is refused", (_name, update) => {
  expect(refusal(document().ask(update))).toBe("malformed");
});

test("more new client ids than an update may bring are refused", () => {
  const many = Array.from({ length: 600 }, (_, i) => {
    const { map, last } = writer(i + 1);
    map.set(`k${i}`, i);
    return last();
  });
  expect(refusal(document().ask(Y.mergeUpdates(many), ada, "step-2"))).toBe("malformed");
});

test("of mutated updates, those that pass apply without a fault and leave nothing pending", () => {
  const base = writer(1);
  for (let i = 0; i < 5; i += 1) base.map.set(`k${i}`, { frets: [i, i + 2], text: "x-x-3-2-4-x" });
  base.map.delete("k1");
  const before = Y.encodeStateAsUpdate(base.doc);
  base.map.set("k9", "after");
  const good = base.last();
  let passed = 0;
  const mutation = fc.array(fc.tuple(fc.nat(good.length - 1), fc.nat(255)), {
    minLength: 1,
    maxLength: 3,
  });
  fc.assert(
    fc.property(mutation, (changes) => {
      const update = good.slice();
      for (const [at, byte] of changes) update[at] = byte;
      const { known, ask } = document();
      const parts = decodeUpdate(before);
      if (parts !== undefined) known.add(parts);
      const admission = ask(update);
      if (admission.kind !== "new") return;
      passed += 1;
      const peer = new Y.Doc();
      Y.applyUpdate(peer, before);
      Y.applyUpdate(peer, admission.update);
      expect(peer.store.pendingStructs).toBeNull();
      expect(peer.store.pendingDs).toBeNull();
    }),
    { numRuns: 5000 },
  );
  expect(passed).toBeGreaterThan(0);
});

function nested(depth: number): unknown {
  return depth === 0 ? 1 : [nested(depth - 1)];
}

function deletionOf(client: number, clock: number, length: number): Uint8Array {
  const encoder = encoding.createEncoder();
  for (const number of [0, 1, client, 1, clock, length]) encoding.writeVarUint(encoder, number);
  return encoding.toUint8Array(encoder);
}

function gcOf(client: number, clock: number, length: number): Uint8Array {
  const encoder = encoding.createEncoder();
  for (const number of [1, 1, client, clock]) encoding.writeVarUint(encoder, number);
  encoding.writeUint8(encoder, 0);
  for (const number of [length, 0]) encoding.writeVarUint(encoder, number);
  return encoding.toUint8Array(encoder);
}

type Forged = {
  readonly client: number;
  readonly clock: number;
  readonly origin: readonly [number, number];
};

/** One-character texts with an origin of the forger's choice, as Yjs would encode them. */
function structsOf(forged: readonly Forged[]): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, forged.length);
  for (const { client, clock, origin } of forged) {
    for (const number of [1, client, clock]) encoding.writeVarUint(encoder, number);
    encoding.writeUint8(encoder, 0x80 | 4);
    for (const number of origin) encoding.writeVarUint(encoder, number);
    encoding.writeVarString(encoder, "x");
  }
  encoding.writeVarUint(encoder, 0);
  return encoding.toUint8Array(encoder);
}
