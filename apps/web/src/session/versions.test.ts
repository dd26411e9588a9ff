/**
 * Documents of an older version are lifted by whoever may write them, and newer ones are told.
 *
 * @vitest-environment jsdom
 */
import { fillDocuments } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import { type BoardDocuments, documentNames, emptyDocuments } from "@halflap/board/documents";
import { chartLayout, laneLayout, schemaVersion } from "@halflap/board/layout";
import { memberId, setMember, setOwner } from "@halflap/board/talk";
import type { BoardId } from "@halflap/wire/api";
import { createRoot } from "solid-js";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { type FakeServer, makeFakeServer } from "../../../../tests/fakes/socket.ts";
import { openSession } from "./open-session.ts";
import type { Session } from "./session.ts";

const id = "b1" as BoardId;
const [mara, jo] = [memberId("mara"), memberId("jo")];
let server: FakeServer;
let docs: BoardDocuments;
let closers: (() => void)[];

function open(me: typeof mara): Session {
  return createRoot((dispose) => {
    closers.push(dispose);
    const who = { id: me, name: me, role: "listener" } as const;
    return openSession({
      ...{ id, epoch: 1, me: who, address: "ws://test/sync", socket: server.Socket },
    });
  });
}

const until = (check: () => void) => vi.waitFor(check, { interval: 5, timeout: 20_000 });
const saved = (session: Session) => until(() => expect(session.state().kind).toBe("saved"));
const schemas = () => [
  chartLayout(docs.board).meta.get("schema"),
  laneLayout(docs["lane-upper"]).meta.get("schema"),
  laneLayout(docs["lane-lower"]).meta.get("schema"),
];

beforeEach(() => {
  localStorage.clear();
  closers = [];
  server = makeFakeServer();
  const made = documentNames.map((name) => [name, server.doc(`${id}/${name}`)]);
  docs = { ...emptyDocuments(), ...Object.fromEntries(made) };
  fillDocuments(docs, demoDraft());
  chartLayout(docs.board).meta.set("schema", 1);
  for (const name of ["lane-upper", "lane-lower"] as const) {
    laneLayout(docs[name]).meta.set("schema", 1);
  }
  setMember(docs.talk, { id: mara, name: "Mara", role: "player" });
  setMember(docs.talk, { id: jo, name: "Jo", role: "listener" });
  setOwner(docs.talk, "lower", mara);
});

afterEach(() => {
  for (const close of closers) close();
});

test("a player lifts the chart and their own lane, and nobody else's", async () => {
  const session = open(mara);
  await saved(session);
  await until(() => expect(schemas()).toEqual([schemaVersion, 1, schemaVersion]));
  expect(session.isNewer()).toBe(false);
  expect(session.canUndo()).toBe(false);
});

test("a listener lifts nothing, and sees the board all the same", async () => {
  const session = open(jo);
  await saved(session);
  expect(session.board.sections.length).toBeGreaterThan(0);
  expect(schemas()).toEqual([1, 1, 1]);
});

test("a board that a newer Halflap writes is told, as soon as it does", async () => {
  const session = open(mara);
  await saved(session);
  chartLayout(docs.board).meta.set("schema", schemaVersion + 1);
  server.reachable(false);
  server.reachable(true);
  await until(() => expect(session.isNewer()).toBe(true));
  expect(chartLayout(docs.board).meta.get("schema")).toBe(schemaVersion + 1);
});
