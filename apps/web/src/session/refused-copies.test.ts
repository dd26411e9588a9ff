/**
 * Whatever is refused is in a copy that can be taken away, also after the page was loaded again;
 * and where the browser has no room for it, the page says so.
 *
 * @vitest-environment jsdom
 */
import { type BoardCopy, fillDocuments } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import { documentNames, emptyDocuments } from "@halflap/board/documents";
import { memberId, setMember, setOwner } from "@halflap/board/talk";
import { assert } from "@halflap/theory/units";
import type { BoardId } from "@halflap/wire/api";
import { type UpdateRefusal, updateRefusals } from "@halflap/wire/messages";
import { createRoot } from "solid-js";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { type FakeServer, makeFakeServer } from "../../../../tests/fakes/socket.ts";
import { openSession } from "./open-session.ts";
import { openRefusedCopies, refusedCopies } from "./refused-copies.ts";
import type { Session } from "./session.ts";

const id = "b1" as BoardId;
const mara = memberId("mara");
/** Those that pass by themselves are offered again, and refuse nothing for good. */
const passing: readonly UpdateRefusal[] = ["store-full", "too-fast", "others-first"];
const final = updateRefusals.filter((refusal) => !passing.includes(refusal));

let server: FakeServer;
let closers: (() => void)[];

function open(): Session {
  return createRoot((dispose) => {
    closers.push(dispose);
    const me = { id: mara, name: "Mara", role: "player" } as const;
    return openSession({ id, epoch: 1, me, address: "ws://test/sync", socket: server.Socket });
  });
}

const openCopies = () =>
  createRoot((dispose) => {
    closers.push(dispose);
    return openRefusedCopies(id);
  });

function closeAll(): void {
  for (const close of closers.splice(0)) close();
}

const until = (check: () => void) => vi.waitFor(check, { interval: 5, timeout: 20_000 });
const saved = (session: Session) => until(() => expect(session.state().kind).toBe("saved"));

/** The copies that wait to be taken away, each dismissed once it was. */
async function copiesOf(session: Session, count: number): Promise<readonly BoardCopy[]> {
  const copies: BoardCopy[] = [];
  while (copies.length < count) {
    await until(() => expect(session.state().kind).toBe("refused"));
    const state = session.state();
    if (state.kind === "refused") copies.push(state.copy);
    session.dismissRefusal();
  }
  return copies;
}

beforeEach(() => {
  localStorage.clear();
  closers = [];
  server = makeFakeServer();
  const made = documentNames.map((name) => [name, server.doc(`${id}/${name}`)]);
  const docs = { ...emptyDocuments(), ...Object.fromEntries(made) };
  fillDocuments(docs, demoDraft());
  setMember(docs.talk, { id: mara, name: "Mara", role: "player" });
  setOwner(docs.talk, "lower", mara);
});

afterEach(() => {
  closeAll();
  vi.restoreAllMocks();
});

test.each(final)(
  "offline work refused as %s is in a copy, also after a reload",
  async (refusal) => {
    const session = open();
    await saved(session);
    server.reachable(false);
    await until(() => expect(session.state().kind).toBe("offline"));
    session.chart.setTitle("Written on the train");
    const bar = session.board.sections[0]?.bars[0]?.id;
    assert(bar !== undefined, "the demo has a first bar");
    session.lane()?.setMark(bar, "as on the train");
    for (const name of ["board", "lane-lower"]) server.refuses(`${id}/${name}`, refusal);
    server.reachable(true);
    await until(() => expect(session.state().kind).toBe("refused"));
    await until(() => expect(session.board.title).not.toBe("Written on the train"));
    await until(() => expect(session.board.lanes.lower.marks.get(bar)).not.toBe("as on the train"));
    closeAll();
    const copies = await copiesOf(open(), 2);
    expect(copies.some(({ title }) => title === "Written on the train")).toBe(true);
    expect(copies.some(({ lanes }) => lanes.lower.marks[bar] === "as on the train")).toBe(true);
  },
);

test("a browser that has no room for the copy says that it is not kept", async () => {
  const session = open();
  await saved(session);
  const wasKept = session.isKept();
  vi.spyOn(Storage.prototype, "setItem").mockImplementation((name) => {
    if (name.includes("refused")) throw new Error("no room");
  });
  server.refuses(`${id}/board`, "malformed");
  session.chart.setTitle("Too much");
  await until(() => expect(session.state().kind).toBe("refused"));
  expect(session.isKept()).toBe(false);
  session.dismissRefusal();
  expect(session.isKept()).toBe(wasKept);
});

test("two tabs keep their copies beside each other, and each is done with its own", () => {
  const wordsOf = () => refusedCopies(id).map(({ words }) => words);
  const [one, other] = [openCopies(), openCopies()];
  const first = one.keepRefused({ words: "one", copy: demoDraft() }, undefined);
  other.keepRefused({ words: "other", copy: demoDraft() }, undefined);
  expect(wordsOf().sort()).toEqual(["one", "other"]);
  one.keepRefused({ words: "one, later", copy: demoDraft() }, first);
  expect(wordsOf().sort()).toEqual(["one, later", "other"]);
  other.dismiss();
  expect(wordsOf()).toEqual(["one, later"]);
  expect([one.areKept(), other.areKept()]).toEqual([true, true]);
  one.dismiss();
  expect(wordsOf()).toEqual([]);
});

test("copies that an earlier release kept are there once, and go", () => {
  const copy = demoDraft();
  localStorage.setItem(`halflap:refused:${id}`, JSON.stringify([{ words: "old", copy }]));
  const copies = openCopies();
  copies.keepRefused({ words: "new", copy }, undefined);
  expect(refusedCopies(id).map(({ words }) => words)).toEqual(["new", "old"]);
  copies.dismiss();
  copies.dismiss();
  expect(refusedCopies(id)).toEqual([]);
});

test("what one tab is done with is not shown by the other any more, and does not come back", () => {
  openCopies().keepRefused({ words: "both", copy: demoDraft() }, undefined);
  const [one, other] = [openCopies(), openCopies()];
  other.keepRefused({ words: "only here", copy: demoDraft() }, undefined);
  const wordsOf = ({ refused }: typeof one) => refused().map(({ words }) => words);
  expect([wordsOf(one), wordsOf(other)]).toEqual([["both"], ["only here", "both"]]);
  one.dismiss();
  dispatchEvent(new StorageEvent("storage", { key: `halflap:refused:${id}` }));
  expect([wordsOf(one), wordsOf(other)]).toEqual([[], ["only here"]]);
  other.keepRefused({ words: "later", copy: demoDraft() }, undefined);
  expect(refusedCopies(id).map(({ words }) => words)).toEqual(["later", "only here"]);
});

test("a copy that this browser has no room for outlives what another tab keeps", () => {
  const copies = openCopies();
  vi.spyOn(Storage.prototype, "setItem").mockImplementation(() => {
    throw new Error("no room");
  });
  copies.keepRefused({ words: "in this page only", copy: demoDraft() }, undefined);
  dispatchEvent(new StorageEvent("storage", { key: `halflap:refused:${id}` }));
  expect(copies.refused()).toHaveLength(1);
});
