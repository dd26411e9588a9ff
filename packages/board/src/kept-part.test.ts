/** A kept part is read again after a change, in the middle of one, and at no other time. */
import { expect, test } from "vitest";
import * as Y from "yjs";
import { keptPart } from "./kept-part.ts";

/** Documents that say a list of words each, and how often they were read. */
function counted(...documents: readonly Y.Doc[]) {
  let reads = 0;
  const part = keptPart(documents, () => {
    reads += 1;
    return documents.map((doc) => ({ id: doc.guid, words: [...doc.getMap("words").keys()] }));
  });
  return { part, reads: () => reads };
}

const say = (doc: Y.Doc, word: string) => doc.getMap("words").set(word, true);

test("nothing is read twice while the documents stay as they are", () => {
  const [doc, other] = [new Y.Doc(), new Y.Doc()];
  const { part, reads } = counted(doc);
  const first = part();
  say(other, "elsewhere");
  expect(part()).toBe(first);
  expect(reads()).toBe(1);
});

test("a change of one's own, another's and one taken away are each read", () => {
  const [doc, peer] = [new Y.Doc(), new Y.Doc()];
  const { part } = counted(doc);
  const words = () => part()[0]?.words;
  say(doc, "mine");
  expect(words()).toEqual(["mine"]);
  say(peer, "theirs");
  Y.applyUpdate(doc, Y.encodeStateAsUpdate(peer));
  expect([...(words() ?? [])].sort()).toEqual(["mine", "theirs"]);
  doc.getMap("words").delete("mine");
  expect(words()).toEqual(["theirs"]);
});

test("what says the same after a change is the same object", () => {
  const [doc, other] = [new Y.Doc(), new Y.Doc()];
  const { part } = counted(doc, other);
  const [first] = part();
  say(other, "elsewhere");
  expect(part()[0]).toBe(first);
  expect(part()[1]?.words).toEqual(["elsewhere"]);
});

test("in the middle of a change the part says what stands so far", () => {
  const doc = new Y.Doc();
  const { part } = counted(doc);
  const words = () => part()[0]?.words;
  part();
  doc.transact(() => {
    say(doc, "one");
    expect(words()).toEqual(["one"]);
    say(doc, "two");
    expect(words()).toEqual(["one", "two"]);
  });
  expect(words()).toEqual(["one", "two"]);
});

test("a part first asked for in the middle of a change follows it", () => {
  const doc = new Y.Doc();
  doc.transact(() => {
    const { part } = counted(doc);
    const words = () => part()[0]?.words;
    say(doc, "one");
    expect(words()).toEqual(["one"]);
    say(doc, "two");
    expect(words()).toEqual(["one", "two"]);
  });
});
