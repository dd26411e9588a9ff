/**
 * Links and members by raw requests: what opens a board, for how long, and what closes it at once.
 */
import { setTitle } from "@halflap/board/edits/chart";
import { readTalkState } from "@halflap/board/talk";
import { apiPath, type LinksAnswer } from "@halflap/wire/api";
import Sqlite from "better-sqlite3";
import { afterAll, beforeAll, expect, test } from "vitest";
import { makeBand } from "../support/band.ts";
import { expectOk, refusalOf, Visitor } from "../support/browser-session.ts";
import { everythingOnDisk } from "../support/disk.ts";
import { RawClient } from "../support/raw-client.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";
import { StockClient } from "../support/stock-client.ts";

let server: TestServer;

beforeAll(async () => {
  server = await startTestServer();
});

afterAll(() => removeTestServer(server));

const joinWith = (secret: string, name?: string) =>
  new Visitor(server.address).ask("POST", apiPath.join, { secret, ...(name ? { name } : {}) });

test("a used-up, a revoked, an expired and an unknown link each say which they are", async () => {
  const { board, leader } = await makeBand(server.address);
  const once = await leader.visitor.invite(board, "player", 1);
  expect((await joinWith(once.secret, "Dora")).status).toBe(200);
  expect(refusalOf(await joinWith(once.secret, "Eve"))).toBe("link-used-up");

  const taken = await leader.visitor.invite(board, "listener");
  await leader.visitor.ask("DELETE", apiPath.link(board, taken.link.id));
  expect(refusalOf(await joinWith(taken.secret, "Eve"))).toBe("link-revoked");

  const old = await leader.visitor.invite(board, "player");
  const db = new Sqlite(server.file);
  db.prepare("UPDATE links SET expires_at = 1 WHERE id = ?").run(old.link.id);
  db.close();
  expect(refusalOf(await joinWith(old.secret, "Eve"))).toBe("link-expired");

  expect(refusalOf(await joinWith("A".repeat(43), "Eve"))).toBe("link-unknown");
  expect(refusalOf(await joinWith("short", "Eve"))).toBe("link-unknown");
});

test("a link's uses are counted under concurrency", async () => {
  const { board, leader } = await makeBand(server.address);
  const { secret } = await leader.visitor.invite(board, "player", 3);
  const answers = await Promise.all(
    Array.from({ length: 8 }, (_, i) => joinWith(secret, `Guest ${i}`)),
  );
  expect(answers.filter(({ status }) => status === 200)).toHaveLength(3);
  expect(answers.filter((answer) => refusalOf(answer) === "link-used-up")).toHaveLength(5);
});

test("only hashes of secrets are on the disk, and none is in the logs", async () => {
  const { board, leader, player } = await makeBand(server.address);
  const { secret } = await leader.visitor.invite(board, "player");
  const session = player.visitor.cookie?.split("=")[1] ?? "";
  expect(session).toMatch(/^[A-Za-z0-9_-]{43}$/);
  for (const text of [secret, session]) {
    for (const form of [text, Buffer.from(text, "base64url").toString("latin1")]) {
      expect(everythingOnDisk(server)).not.toContain(form);
      expect(server.logs()).not.toContain(form);
    }
  }
});

test("only the leader handles links; anybody makes one to another own device", async () => {
  const { board, leader, player, listener } = await makeBand(server.address);
  const body = { role: "listener", days: 1, uses: 1 };
  for (const { visitor } of [player, listener]) {
    expect(refusalOf(await visitor.ask("POST", apiPath.links(board), body))).toBe("not-allowed");
    expect(refusalOf(await visitor.ask("GET", apiPath.links(board)))).toBe("not-allowed");
  }
  const self = await listener.visitor.invite(board, "self");
  expect(self.link).toMatchObject({ role: "self", usesLeft: 1 });
  const phone = new Visitor(server.address);
  expect((await phone.join(self.secret)).me).toEqual(listener.me);
  const { links } = expectOk(await leader.visitor.ask("GET", apiPath.links(board))) as LinksAnswer;
  expect(links.map(({ role }) => role)).toEqual(["player", "listener"]);
});

test("a link to another's own device leaves whoever opens it who they are", async () => {
  const { board, leader, listener } = await makeBand(server.address);
  const { secret } = await listener.visitor.invite(board, "self");
  const opened = await leader.visitor.ask("POST", apiPath.join, { secret });
  expect(refusalOf(opened)).toBe("not-allowed");
  expect(expectOk(await leader.visitor.ask("GET", apiPath.board(board)))).toMatchObject({
    me: leader.me,
  });
});

test("a removed member's sockets close for good, and the lane is free", async () => {
  const { board, leader, player } = await makeBand(server.address);
  await player.visitor.ask("POST", apiPath.lane(board, "lower", "claim"));
  const socket = await RawClient.synced(player.visitor, board, "lane-lower");
  const page = await StockClient.of(leader.visitor, board, "talk");
  const gone = await leader.visitor.ask("DELETE", apiPath.member(board, player.me.id));
  expect(gone.status).toBe(200);
  expect((await socket.closed).code).toBe(4403);
  await page.until(() => readTalkState(page.doc).members.length === 2);
  expect(readTalkState(page.doc).owners.lower).toBeUndefined();
  expect(refusalOf(await player.visitor.ask("GET", apiPath.board(board)))).toBe("not-found");
  expect((await RawClient.open(player.visitor, board, "board").closed).code).toBe(4401);
  page.close();
});

test("a deleted board closes every socket and is nowhere any more", async () => {
  const { board, leader, listener } = await makeBand(server.address);
  const socket = await RawClient.synced(listener.visitor, board, "board");
  expect(refusalOf(await listener.visitor.ask("DELETE", apiPath.board(board)))).toBe("not-allowed");
  expect((await leader.visitor.ask("DELETE", apiPath.board(board))).status).toBe(200);
  expect((await socket.closed).code).toBe(4403);
  expect(refusalOf(await leader.visitor.ask("GET", apiPath.board(board)))).toBe("not-found");
  expect(everythingOnDisk(server)).not.toContain(board);
});

test("the lead goes to a player, and what only leaders may goes with it", async () => {
  const { board, leader, player, listener } = await makeBand(server.address);
  const hand = (to: unknown) => leader.visitor.ask("POST", apiPath.leader(board), { to });
  expect(refusalOf(await hand(listener.me.id))).toBe("not-allowed");
  expect(refusalOf(await hand("nobody"))).toBe("member-unknown");
  expect((await hand(player.me.id)).status).toBe(200);
  expect(refusalOf(await hand(player.me.id))).toBe("not-allowed");
  await player.visitor.invite(board, "listener");
});

test("a new name reaches everybody, and the presence under it is taken", async () => {
  const { board, leader, player } = await makeBand(server.address);
  const page = await StockClient.of(leader.visitor, board, "talk");
  const answer = await player.visitor.ask("POST", apiPath.name(board), { name: "  Benno " });
  expect(answer.status).toBe(200);
  await page.until(() => readTalkState(page.doc).members.some(({ name }) => name === "Benno"));
  page.close();
});

test.each([
  ["", "bad-body"],
  [" ", "bad-body"],
  ["x".repeat(41), "bad-body"],
  ["\u{1f600}".repeat(40), "bad-body"],
  ["\u200b", "bad-body"],
  ["a\nb", "bad-body"],
  ["a\u202eb", "bad-body"],
])("the name %j is refused", async (name, code) => {
  const visitor = new Visitor(server.address);
  const { board } = await visitor.makeBoard();
  expect(refusalOf(await visitor.ask("POST", apiPath.name(board), { name }))).toBe(code);
});

test("offline edits under an earlier page's client id come in with the member", async () => {
  const { board, leader } = await makeBand(server.address);
  const first = await StockClient.of(leader.visitor, board, "board");
  first.provider.disconnect();
  setTitle(first.doc, "Made Offline");
  const kept = first.doc;
  first.close();
  kept.clientID += 1; // what a reload does: the kept document goes on under a new id
  const again = await StockClient.of(leader.visitor, board, "board", kept);
  const reader = await RawClient.synced(leader.visitor, board, "board");
  await reader.until(() => reader.doc.getMap("meta").toJSON().title === "Made Offline");
  again.close();
  await reader.close();
});
