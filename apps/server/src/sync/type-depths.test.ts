/** W5, nesting: shared types inside one another end at a depth, however they came there. */
import { memberId } from "@halflap/board/talk";
import { typeDepthMax } from "@halflap/wire/limits";
import { expect, test } from "vitest";
import * as Y from "yjs";
import { type Admission, admit } from "./admission.ts";
import { decodeUpdate } from "./decoded-update.ts";
import { KnownState } from "./known-state.ts";

const ada = memberId("ada");

/** A document with what each of its transactions sent. */
function writer() {
  const doc = new Y.Doc();
  doc.clientID = 1;
  const sent: Uint8Array[] = [];
  doc.on("update", (update: Uint8Array) => sent.push(update));
  return { doc, sent };
}

function ask(known: KnownState, update: Uint8Array): Admission {
  const against = { known, ownerOf: () => ada, isBound: () => true };
  return admit({ update, member: ada, as: "edit" }, against);
}

function partsOf(update: Uint8Array) {
  const parts = decodeUpdate(update);
  if (parts === undefined) throw new Error("an honest update can't be read");
  return parts;
}

test("types in one another are bounded: at once, one by one, by a neighbour's place", () => {
  const nested = (by: "at once" | "one by one" | "beside", depth: number) => {
    const { doc, sent } = writer();
    const known = new KnownState();
    const root = doc.getArray<unknown>("list");
    const nest = () => {
      let list = root;
      for (let i = 0; i < depth; i += 1) {
        const inner = new Y.Array<unknown>();
        // Behind another it names no parent, only its neighbour.
        list.insert(0, by === "beside" ? ["first", inner] : [inner]);
        list = inner;
      }
      list.insert(0, ["x"]);
    };
    if (by === "at once") doc.transact(nest);
    else nest();
    return sent.map((update) => {
      const admission = ask(known, update);
      if (admission.kind === "new") known.add(admission.parts);
      return admission.kind === "refused" ? admission.refusal : admission.kind;
    });
  };
  for (const by of ["at once", "one by one", "beside"] as const) {
    expect(new Set(nested(by, typeDepthMax)), by).toEqual(new Set(["new"]));
    expect(nested(by, typeDepthMax + 1).at(-1), by).toBe("malformed");
  }
});

test("depth is known again from stored rows, and forgotten with what was not stored", () => {
  const { doc, sent } = writer();
  let inner = doc.getMap<unknown>("m");
  for (let i = 0; i < typeDepthMax; i += 1) {
    const next = new Y.Map<unknown>();
    inner.set("in", next);
    inner = next;
  }
  const durable = new KnownState();
  for (const update of sent) durable.add(partsOf(update));
  const deeper = new Y.Map<unknown>();
  inner.set("in", deeper);
  deeper.set("x", 1);
  const [shallow, deep] = sent.slice(-2);
  const known = durable.copy();
  known.add(partsOf(shallow ?? new Uint8Array()));
  expect(ask(known, deep ?? new Uint8Array())).toMatchObject({ refusal: "malformed" });
  const afterFailure = durable.copy();
  expect(afterFailure.depths.reaches(1, typeDepthMax + 1)).toBe(false);
  expect(afterFailure.depths.reaches(1, typeDepthMax)).toBe(true);
});
