/**
 * A whole session against a fake server: rights, refusals, presence, findings.
 *
 * @vitest-environment jsdom
 */
import { fillDocuments } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import type { BoardDocuments } from "@halflap/board/documents";
import { memberId, setMember, setOwner } from "@halflap/board/talk";
import { assert } from "@halflap/theory/units";
import type { BoardId } from "@halflap/wire/api";
import { createEffect, createRoot } from "solid-js";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import * as Y from "yjs";
import { type FakeServer, makeFakeServer } from "../../../../tests/fakes/socket.ts";
import { openSession } from "./open-session.ts";
import type { Session } from "./session.ts";

const id = "b1" as BoardId;
const [mara, jo] = [memberId("mara"), memberId("jo")];
let server: FakeServer;
let closers: (() => void)[];

function open(me: typeof mara, socket = server.Socket): Session {
  return createRoot((dispose) => {
    closers.push(dispose);
    const role = "player";
    return openSession({
      id,
      epoch: 1,
      me: { id: me, name: me, role },
      address: "ws://test/sync",
      socket,
    });
  });
}

const until = (check: () => void) => vi.waitFor(check, { interval: 5, timeout: 20_000 });
const saved = (session: Session) => until(() => expect(session.state().kind).toBe("saved"));
const slot = (session: Session) => {
  const found = session.board.sections[0]?.bars[0]?.slots[0];
  assert(found !== undefined, "the demo has a first slot");
  return found.id;
};

beforeEach(() => {
  localStorage.clear();
  closers = [];
  server = makeFakeServer();
  const docs: BoardDocuments = {
    board: server.doc(`${id}/board`),
    "lane-upper": server.doc(`${id}/lane-upper`),
    "lane-lower": server.doc(`${id}/lane-lower`),
    talk: server.doc(`${id}/talk`),
  };
  fillDocuments(docs, demoDraft());
  setMember(docs.talk, { id: mara, name: "Mara", role: "player" });
  setMember(docs.talk, { id: jo, name: "Jo", role: "listener" });
  setOwner(docs.talk, "lower", mara);
});

afterEach(() => {
  for (const close of closers) close();
});

test("role, own lane and rights come from the board's members, not from memory", async () => {
  const [player, listener] = [open(mara), open(jo)];
  await saved(player);
  await saved(listener);
  expect([player.me().name, player.ownLane(), player.mayEditChart()]).toEqual([
    "Mara",
    "lower",
    true,
  ]);
  expect([listener.me().role, listener.ownLane(), listener.mayEditChart()]).toEqual([
    "listener",
    undefined,
    false,
  ]);
  listener.chart.setTitle("Not mine to change");
  expect(server.doc(`${id}/board`).getMap("meta").get("title")).not.toBe("Not mine to change");
  expect(listener.lane()).toBeUndefined();
});

test("an edit is on the own board at once, and on the other's as soon as it arrives", async () => {
  const [one, other] = [open(mara), open(jo)];
  await saved(one);
  await saved(other);
  const [own, others] = [one.heardCharts(), other.heardCharts()];
  one.chart.setTitle("Over the Bar");
  one.lane()?.clearGrip(slot(one));
  await until(() => expect(one.board.title).toBe("Over the Bar"));
  await until(() => expect(other.board.title).toBe("Over the Bar"));
  expect([one.heardCharts(), other.heardCharts()]).toEqual([own, others + 1]);
  await until(() => expect(other.board.lanes.lower.grips.has(slot(other))).toBe(false));
  one.undo();
  await until(() => expect(other.board.lanes.lower.grips.has(slot(other))).toBe(true));
  expect(other.board.title).toBe("Over the Bar");
  await saved(one);
});

test("a refused change is kept as a copy, and the board goes back to what was agreed", async () => {
  const session = open(mara);
  await saved(session);
  const agreed = session.board.lanes.lower.grips.size;
  server.refuses(`${id}/lane-lower`, "not-yours");
  session.lane()?.clearGrip(slot(session));
  await until(() => expect(session.state().kind).toBe("refused"));
  const state = session.state();
  assert(state.kind === "refused", "just seen");
  expect(state.copy.lanes.lower.grips).not.toHaveProperty(slot(session));
  expect(state.words).toContain("lower lane");
  await until(() => expect(session.board.lanes.lower.grips.size).toBe(agreed));
  server.refuses(`${id}/lane-lower`, undefined);
  session.dismissRefusal();
  await saved(session);
});

test("others' work that the server lost goes without a word; it is theirs to bring", async () => {
  const before = new Y.Doc();
  Y.applyUpdate(before, Y.encodeStateAsUpdate(server.doc(`${id}/board`)));
  const [author, reader] = [open(mara), open(jo)];
  await saved(author);
  await saved(reader);
  author.chart.setTitle("Heard and lost");
  await until(() => expect(reader.board.title).toBe("Heard and lost"));
  server.replace(`${id}/board`, before);
  server.refuses(`${id}/board`, "foreign-client");
  server.reachable(false);
  server.reachable(true);
  await until(() => expect(reader.board.title).not.toBe("Heard and lost"));
  await saved(reader);
});

test("what is typed while a board is silently loaded again is kept as a copy", async () => {
  const before = new Y.Doc();
  Y.applyUpdate(before, Y.encodeStateAsUpdate(server.doc(`${id}/board`)));
  setMember(server.doc(`${id}/talk`), { id: jo, name: "Jo", role: "player" });
  let onLeft = () => {};
  class Watched extends server.Socket {
    override close() {
      super.close();
      onLeft();
    }
  }
  const [author, reader] = [open(mara), open(jo, Watched)];
  await saved(author);
  await saved(reader);
  author.chart.setTitle("Heard and lost");
  await until(() => expect(reader.board.title).toBe("Heard and lost"));
  server.replace(`${id}/board`, before);
  server.refuses(`${id}/board`, "foreign-client");
  server.reachable(false);
  onLeft = () => {
    onLeft = () => {};
    reader.chart.setTempo(91);
  };
  server.reachable(true);
  await until(() => expect(reader.board.title).not.toBe("Heard and lost"));
  const state = reader.state();
  assert(state.kind === "refused", "a copy was kept");
  expect(state.copy.tempo).toBe(91);
  expect(state.words).toContain("while the board was loading again");
  reader.dismissRefusal();
  await saved(reader);
});

test("a proposal that was taken with a refused change is offered again", async () => {
  const session = open(mara);
  await saved(session);
  const bar = session.board.sections[0]?.bars[0]?.id;
  assert(bar !== undefined, "the demo has a first bar");
  session.proposals.offer("lower", "Rest here.", [bar], [{ kind: "lay-out", bar, rest: true }]);
  await until(() => expect(session.board.proposals).toHaveLength(1));
  const [offered] = session.board.proposals;
  assert(offered !== undefined, "just seen");
  server.refuses(`${id}/lane-lower`, "not-yours");
  session.proposals.take(offered.id);
  await until(() => expect(session.state().kind).toBe("refused"));
  await until(() => expect(session.board.proposals).toEqual([offered]));
  server.refuses(`${id}/lane-lower`, undefined);
  session.dismissRefusal();
  await saved(session);

  session.proposals.take(offered.id);
  await until(() => expect(session.board.lanes.lower.layOuts.has(bar)).toBe(true));
  await saved(session);
  server.refuses(`${id}/lane-lower`, "not-yours");
  session.lane()?.clearGrip(slot(session));
  await until(() => expect(session.state().kind).toBe("refused"));
  expect(session.board.proposals).toEqual([]);
});

test("what is done while a refused document is being left is in the copy too", async () => {
  const session = open(mara);
  await saved(session);
  server.refuses(`${id}/board`, "document-full");
  let isTyped = false;
  createRoot((dispose) => {
    closers.push(dispose);
    createEffect(() => {
      if (isTyped || session.state().kind !== "refused") return;
      isTyped = true;
      session.chart.setTitle("Typed a moment later");
    });
  });
  session.chart.setTitle("No room for this");
  await until(() => expect(session.state().kind).toBe("refused"));
  await until(() => {
    const state = session.state();
    assert(state.kind === "refused", "not dismissed yet");
    expect(state.copy.title).toBe("Typed a moment later");
  });
  expect(session.board.title).not.toBe("Typed a moment later");
});

test("the copy of a refused change outlives a reload until it is dismissed", async () => {
  const session = open(mara);
  await saved(session);
  server.refuses(`${id}/board`, "document-full");
  session.chart.setTitle("No room for this");
  await until(() => expect(session.state().kind).toBe("refused"));
  server.refuses(`${id}/board`, undefined);
  const again = open(mara);
  const state = again.state();
  assert(state.kind === "refused", "remembered");
  expect(state.copy.title).toBe("No room for this");
  again.dismissRefusal();
  await saved(again);
  const third = open(mara);
  await saved(third);
});

test("presence shows the others and where they are, never myself", async () => {
  const [one, other] = [open(mara), open(jo)];
  await saved(one);
  await saved(other);
  one.setWhere({ lane: "lower", slot: slot(one) });
  await until(() =>
    expect(other.presence()).toEqual([
      { member: mara, name: "Mara", lane: "lower", slot: slot(one) },
    ]),
  );
  await until(() => expect(one.presence().map(({ member }) => member)).toEqual([jo]));
});

test("after a broken line everybody sees the others again, though nobody moved", async () => {
  const [one, other] = [open(mara), open(jo)];
  await saved(one);
  await saved(other);
  one.setWhere({ lane: "lower", slot: slot(one) });
  const here = () => {
    expect(other.presence().map(({ member, slot: at }) => [member, at])).toEqual([
      [mara, slot(one)],
    ]);
    expect(one.presence().map(({ member }) => member)).toEqual([jo]);
  };
  await until(here);
  server.reachable(false);
  await until(() => expect([one.presence(), other.presence()]).toEqual([[], []]));
  server.reachable(true);
  await until(here);
});

test("a member who was removed reads words, changes nothing, and still has the copy", async () => {
  const session = open(mara);
  await saved(session);
  const { title } = session.board;
  server.close(4403);
  await until(() => expect(session.state().kind).toBe("closed"));
  session.chart.setTitle("After the fact");
  expect([session.mayEditChart(), session.lane()]).toEqual([false, undefined]);
  expect(session.copy().title).toBe(title);
});

test("findings follow the grips", async () => {
  const session = open(mara);
  await saved(session);
  const first = session.board.sections[0]?.bars[0]?.id;
  assert(first !== undefined, "the demo has a first bar");
  const inFirstBar = () => session.findings().filter(({ bars }) => bars[0] === first).length;
  await until(() => expect(inFirstBar()).toBeGreaterThan(0));
  const before = inFirstBar();
  session.lane()?.clearGrip(slot(session));
  await until(() => expect(inFirstBar()).toBeLessThan(before));
});
