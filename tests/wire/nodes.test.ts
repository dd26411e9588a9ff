/**
 * Two nodes over one PostgreSQL, each with pages of its own: what one stores, the other's pages see
 * and its doors obey.
 */
import { readTalkState } from "@halflap/board/talk";
import { redisWakes } from "@halflap/server/wakes-redis";
import { apiPath } from "@halflap/wire/api";
import { closeCode } from "@halflap/wire/messages";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import * as Y from "yjs";
import { type Band, type Bandmate, claimLane, makeBand } from "../support/band.ts";
import { expectOk, Visitor } from "../support/browser-session.ts";
import { startPostgres, type TestPostgres } from "../support/postgres.ts";
import { RawClient } from "../support/raw-client.ts";
import { startRedis, type TestRedis } from "../support/redis.ts";
import { decidedOf, saidIn, say } from "../support/say.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let postgres: TestPostgres;
let redis: TestRedis;
let variables: Record<string, string>;
let here: TestServer;
let there: TestServer;
let band: Band;

beforeAll(async () => {
  postgres = await startPostgres();
  redis = await startRedis();
  variables = {
    HALFLAP_DATABASE_URL: postgres.makeDatabase("boards"),
    HALFLAP_REDIS_URL: redis.address,
  };
  // The first one makes the tables; the second one finds them.
  here = await startTestServer({ variables });
  there = await startTestServer({ variables });
  band = await makeBand(here.address);
});

afterAll(async () => {
  await Promise.all([removeTestServer(here), removeTestServer(there)]);
  await Promise.all([postgres.remove(), redis.kill()]);
});

/** The same browser at another node. */
function at({ address }: TestServer, { visitor }: Bandmate): Visitor {
  const same = new Visitor(address);
  same.cookie = visitor.cookie;
  return same;
}

const open = (node: TestServer, who: Bandmate, document: string) =>
  RawClient.synced(at(node, who), band.board, document);
const refusalsOf = ({ heard }: RawClient) => heard.filter(({ kind }) => kind === "refused");
const has = (client: RawClient, key: string) =>
  client.until(() => Object.hasOwn(saidIn(client.doc), key));
const savedAll = (client: RawClient, sent: number) => client.until(() => decidedOf(client) >= sent);

test("an edit at one node wakes the other, whose pages see it, both ways", async () => {
  const wakes = redisWakes({ address: redis.address, onLost: () => undefined });
  const isWoken = new Promise<void>((resolve) => {
    wakes.hear((heard) => {
      if (heard !== "perhaps-more" && heard.key.board === band.board) resolve();
    });
  });
  const ada = await open(here, band.leader, "board");
  const ben = await open(there, band.player, "board");
  say(ada, "from-here", 1);
  await has(ben, "from-here");
  say(ben, "from-there", 2);
  await has(ada, "from-there");
  for (let i = 0; i < 10; i += 1) {
    say(ada, "ball", 2 * i);
    await ben.until(() => saidIn(ben.doc).ball === 2 * i);
    say(ben, "ball", 2 * i + 1);
    await ada.until(() => saidIn(ada.doc).ball === 2 * i + 1);
  }
  await isWoken;
  await wakes.close();
  expect(refusalsOf(ben)).toEqual([]);
  await Promise.all([ada.close(), ben.close()]);
});

test("what follows an edit that this node has not read yet is taken all the same", async () => {
  const ada = await open(here, band.leader, "board");
  const ben = await open(there, band.player, "board");
  say(ada, "order", "first");
  await savedAll(ada, 1);
  // Ben's page heard of it on another way, and builds on it at once.
  Y.applyUpdate(ben.doc, Y.encodeStateAsUpdate(ada.doc));
  say(ben, "order", "second");
  await savedAll(ben, 1);
  expect(refusalsOf(ben)).toEqual([]);
  await ada.until(() => saidIn(ada.doc).order === "second");
  await Promise.all([ada.close(), ben.close()]);
});

test("an edit is heard at the other node before the store has it, and built upon", async () => {
  const ada = await open(here, band.leader, "board");
  const ben = await open(there, band.player, "board");
  say(ada, "known", 1); // from here on the store knows whose their client ids are
  say(ben, "known too", 1);
  await Promise.all([savedAll(ada, 1), savedAll(ben, 1)]);
  await Promise.all([has(ben, "known"), has(ada, "known too")]);
  postgres.freeze();
  try {
    say(ada, "early", "first");
    // Within a time of its own: a database that stands still must go on when this fails.
    const isHeard = () => expect(saidIn(ben.doc).early).toBe("first");
    await vi.waitFor(isHeard, { timeout: 15_000 });
    say(ben, "early", "second");
    expect([decidedOf(ada), decidedOf(ben)]).toEqual([1, 1]);
  } finally {
    postgres.thaw();
  }
  await Promise.all([savedAll(ada, 2), savedAll(ben, 2)]);
  await ada.until(() => saidIn(ada.doc).early === "second");
  expect([...refusalsOf(ada), ...refusalsOf(ben)]).toEqual([]);
  const late = await open(here, band.listener, "board");
  await late.until(() => saidIn(late.doc).early === "second");
  await Promise.all([ada.close(), ben.close(), late.close()]);
});

test("who is present at one node is seen at the other until they leave", async () => {
  const speak = (client: RawClient, { me }: Bandmate, clock: number) =>
    client.sendAwareness([
      { client: client.doc.clientID, clock, state: { member: me.id, name: me.name } },
    ]);
  const sees = (client: RawClient, id: number, isThere: boolean) =>
    client.until(
      (frame) =>
        frame.kind === "awareness" &&
        frame.entries.some((one) => one.client === id && (one.state !== null) === isThere),
    );
  const ada = await open(here, band.leader, "board");
  const ben = await open(there, band.player, "board");
  speak(ada, band.leader, 1);
  await sees(ben, ada.doc.clientID, true);
  speak(ben, band.player, 1);
  await sees(ada, ben.doc.clientID, true);
  const cleo = await open(there, band.listener, "board");
  await sees(cleo, ada.doc.clientID, true);
  await ada.close();
  await Promise.all([ben, cleo].map((one) => sees(one, ada.doc.clientID, false)));
  await Promise.all([ben.close(), cleo.close()]);
});

test("without Redis edits cross all the same, and so does all else from here on", async () => {
  await redis.kill();
  await Promise.all([here.logged(/wake-line-lost/), there.logged(/wake-line-lost/)]);
  const ada = await open(here, band.leader, "board");
  const ben = await open(there, band.player, "board");
  say(ada, "unwoken-here", 1);
  await has(ben, "unwoken-here");
  say(ben, "unwoken-there", 1);
  await has(ada, "unwoken-there");
  expect(here.logs() + there.logs()).not.toMatch(/room-failed|store-failed/);
  await Promise.all([ada.close(), ben.close()]);
});

test("a lane handed over at one node is obeyed at the other", async () => {
  await claimLane(band.player, band.board, "upper");
  const ben = await open(there, band.player, "lane-upper");
  const ada = await open(there, band.leader, "lane-upper");
  const talk = await open(there, band.listener, "talk");
  say(ben, "mine", 1);
  await savedAll(ben, 1);
  const to = band.leader.me.id;
  const path = apiPath.lane(band.board, "upper", "hand-over");
  expectOk(await band.player.visitor.ask("POST", path, { to }));
  await talk.until(() => readTalkState(talk.doc).owners.upper === to);
  say(ada, "hers", 1);
  await savedAll(ada, 1);
  expect(refusalsOf(ada)).toEqual([]);
  for (let sent = 2; refusalsOf(ben).length === 0; sent += 1) {
    say(ben, `late-${sent}`, sent); // taken until the node has heard of it, refused from then on
    await savedAll(ben, sent);
  }
  expect(refusalsOf(ben)).toEqual([{ kind: "refused", why: "not-yours" }]);
  await Promise.all([ben.close(), ada.close(), talk.close()]);
});

test("who is removed at one node loses the socket at the other", async () => {
  const cleo = await open(there, band.listener, "board");
  const path = `/api/boards/${band.board}/members/${band.listener.me.id}`;
  expectOk(await band.leader.visitor.ask("DELETE", path));
  expect((await cleo.closed).code).toBe(closeCode.revoked);
});

test("pages of a node that was killed go on at the other, with all that was saved", async () => {
  const ada = await open(here, band.leader, "board");
  const ben = await open(there, band.player, "board");
  const keys = Array.from({ length: 30 }, (_, i) => `last-${i}`);
  for (const key of keys) say(ada, key, 1);
  await savedAll(ada, 10);
  await here.kill();
  await ada.closed;
  const saved = keys.slice(0, decidedOf(ada));
  const again = await open(there, band.leader, "board");
  for (const key of saved) await has(again, key);
  again.sendStep2(Y.encodeStateAsUpdate(ada.doc));
  await savedAll(again, 1);
  expect(refusalsOf(again)).toEqual([]);
  for (const key of keys) await has(ben, key);
  say(ben, "after", 1);
  await has(again, "after");
  await Promise.all([again.close(), ben.close()]);
});
