/**
 * Playing together at two nodes over one PostgreSQL and one Redis: the same run, told in a time
 * that both mean alike, whatever becomes of a node or of Redis. A third one that shares the boards
 * but not the Redis shows what these tests would see if nothing crossed.
 */
import {
  type Agreement,
  agree,
  type Ping,
  pingsPerRound,
  reckon,
  serverTime,
} from "@halflap/wire/agreement";
import {
  encodeClockQuestion,
  encodeTogetherAsk,
  type NodesApart,
  type SharedPlay,
  type SharedWish,
  type Told,
} from "@halflap/wire/together";
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from "vitest";
import { type Band, type Bandmate, makeBand } from "../support/band.ts";
import { Visitor } from "../support/browser-session.ts";
import { startPostgres, type TestPostgres } from "../support/postgres.ts";
import { RawClient } from "../support/raw-client.ts";
import { startRedis, type TestRedis } from "../support/redis.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let postgres: TestPostgres;
let redis: TestRedis;
let variables: Record<string, string>;
let here: TestServer;
let there: TestServer;
/** Knows the boards, and of the other nodes nothing. */
let aside: TestServer;
let band: Band;
let open: RawClient[];

beforeAll(async () => {
  postgres = await startPostgres();
  redis = await startRedis();
  const shared = { HALFLAP_DATABASE_URL: postgres.makeDatabase("boards") };
  variables = { ...shared, HALFLAP_REDIS_URL: redis.address };
  here = await startTestServer({ variables });
  there = await startTestServer({ variables });
  aside = await startTestServer({ variables: shared });
});

beforeEach(async () => {
  [band, open] = [await makeBand(here.address), []];
});

afterEach(() => Promise.all(open.map((client) => client.close())));

afterAll(async () => {
  await Promise.all([here, there, aside].map(removeTestServer));
  await Promise.all([postgres.remove(), redis.kill()]);
});

/** The same browser at a node; it has agreed on nothing yet. */
async function come({ address }: TestServer, { visitor }: Bandmate): Promise<RawClient> {
  const same = new Visitor(address);
  same.cookie = visitor.cookie;
  const client = await RawClient.synced(same, band.board, "board");
  open.push(client);
  return client;
}

/** One question and its answer. */
async function ping(client: RawClient, isAlong: boolean) {
  const before = client.count("time");
  const sentMs = performance.now();
  client.sendBytes(encodeClockQuestion({ sentMs, isAlong }));
  await client.until(() => client.count("time") > before);
  const cameMs = performance.now();
  const answer = client.heard.flatMap((one) => (one.kind === "time" ? [one.answer] : [])).at(-1);
  return { sentMs, serverMs: answer?.serverMs ?? Number.NaN, cameMs, nodes: answer?.nodes };
}

/** What a page knows of a node's time after one round of questions. */
async function clockOf(client: RawClient, isAlong = true) {
  const pings: (Ping & { readonly nodes?: NodesApart | undefined })[] = [];
  for (let i = 0; i < pingsPerRound; i += 1) pings.push(await ping(client, isAlong));
  const round = reckon(pings);
  const agreement = round && agree([round]);
  if (agreement === undefined) throw new Error("no answers");
  return { agreement, nodes: pings.at(-1)?.nodes };
}

/** The node's time now, as its page knows it, and whatever it says of other nodes. */
async function until(client: RawClient, isWanted: (nodes: NodesApart | undefined) => boolean) {
  for (;;) {
    const { nodes, serverMs } = await ping(client, false);
    if (isWanted(nodes)) return serverMs;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}
const isShared = (nodes: NodesApart | undefined) => typeof nodes === "object";
const sharedTime = (client: RawClient) => until(client, isShared);

/** How far two pages would play apart of what is told in both their nodes' times, in ms. */
function apartMs(one: Agreement, other: Agreement): number {
  const nowMs = performance.now();
  return Math.abs(serverTime(one, nowMs) - serverTime(other, nowMs));
}

const play = (atMs: number, more: Partial<SharedPlay> = {}): SharedPlay => {
  return { kind: "playing", tick: 0, atMs, percent: 100, countIn: 0, loop: undefined, ...more };
};
const ask = (client: RawClient, wish: SharedWish) => client.sendBytes(encodeTogetherAsk(wish));
const lastTold = (client: RawClient): Told | undefined =>
  client.heard.flatMap((frame) => (frame.kind === "told" ? [frame.told] : [])).at(-1);
const tells = (client: RawClient, wish: SharedWish) =>
  client.until(() => {
    const told = lastTold(client);
    return told?.kind === "word" && JSON.stringify(told.wish) === JSON.stringify(wish);
  });
const tellsNothing = (client: RawClient) =>
  client.until(() => lastTold(client)?.kind === "nothing");

test("W15 whoever comes, at either node, hears one run, and each may turn it", async () => {
  const ada = await come(here, band.leader);
  const ben = await come(there, band.player);
  const nowMs = await sharedTime(ada);
  await sharedTime(ben);
  const first = play(nowMs + 600, { tick: 768, percent: 80, countIn: 1 });
  ask(ada, first);
  await Promise.all([ada, ben].map((one) => tells(one, first)));
  expect(lastTold(ben)).toEqual(lastTold(ada));
  const cleo = await come(there, band.listener);
  await tells(cleo, first);
  const turned = play(nowMs + 900, { tick: 192, percent: 120 });
  ask(ben, turned);
  await Promise.all([ada, ben, cleo].map((one) => tells(one, turned)));
  expect(lastTold(ada)).toMatchObject({ by: band.player.me.id });
  ask(cleo, { kind: "stopped" });
  await Promise.all([ada, ben].map((one) => tells(one, { kind: "stopped" })));
  expect(lastTold(ada)).toEqual(lastTold(ben));
});

test("W15 both nodes mean the same time, within what they and the pages' clocks say", async () => {
  const [ada, ben] = [await come(here, band.leader), await come(there, band.player)];
  await Promise.all([sharedTime(ada), sharedTime(ben)]);
  const [one, other] = [await clockOf(ada), await clockOf(ben)];
  const doubt = (nodes: NodesApart | undefined) =>
    typeof nodes === "object" ? nodes.withinMs : Number.NaN;
  const bound = one.agreement.withinMs + other.agreement.withinMs;
  const apart = apartMs(one.agreement, other.agreement);
  expect(apart).toBeLessThanOrEqual(bound + doubt(one.nodes) + doubt(other.nodes));
});

test("a node that is not joined to the others means another time, and tells nothing", async () => {
  const [ada, eve] = [await come(here, band.leader), await come(aside, band.player)];
  const nowMs = await sharedTime(ada);
  const [one, other] = [await clockOf(ada), await clockOf(eve)];
  expect(apartMs(one.agreement, other.agreement)).toBeGreaterThan(60_000);
  const wish = play(nowMs + 600);
  ask(ada, wish);
  await tells(ada, wish);
  await eve.settled();
  expect(lastTold(eve)).toEqual({ kind: "nothing" });
  const late = await come(aside, band.listener);
  expect(lastTold(late)).toEqual({ kind: "nothing" });
});

test("W15 it goes on while somebody hears it anywhere, and ends with the last", async () => {
  const [ada, ben] = [await come(here, band.leader), await come(there, band.player)];
  const cleo = await come(here, band.listener);
  const wish = play(await sharedTime(ada));
  await sharedTime(ben);
  ask(ada, wish);
  await tells(ben, wish);
  await ping(ben, true);
  // What a node passes comes in order: with this word the other knows that Ben hears it.
  const again = play(wish.atMs, { percent: 90 });
  ask(ben, again);
  await tells(cleo, again);
  await ada.close();
  await cleo.settled();
  expect(lastTold(cleo)).toMatchObject({ kind: "word", wish: again });
  await ben.close();
  await tellsNothing(cleo);
});

test("W15 without Redis each node goes on and says so; then all fall in again", async () => {
  const [ada, ben] = [await come(here, band.leader), await come(there, band.player)];
  const cleo = await come(here, band.listener);
  const nowMs = await sharedTime(ada);
  await sharedTime(ben);
  const wish = play(nowMs + 600);
  ask(ada, wish);
  await Promise.all([ben, cleo].map((one) => tells(one, wish)));
  await ping(ben, true);
  await redis.kill();
  await Promise.all([ada, ben].map((one) => until(one, (nodes) => nodes === "cut-off")));
  expect(lastTold(ben)).toMatchObject({ wish });
  await ping(ada, true);
  const alone = play(nowMs + 900, { percent: 75 });
  ask(ada, alone);
  await Promise.all([ada, cleo].map((one) => tells(one, alone)));
  await ben.settled();
  expect(lastTold(ben)).toMatchObject({ wish });
  await redis.start();
  await tells(ben, alone);
  await Promise.all([ada, ben].map(sharedTime));
  expect([ada, ben].map((client) => client.socket.readyState)).toEqual([1, 1]);
});

test("W15 a node dies: whoever was at it falls in at another, where it goes on", async () => {
  const [ada, ben] = [await come(here, band.leader), await come(there, band.player)];
  const nowMs = await sharedTime(ada);
  await sharedTime(ben);
  const before = await clockOf(ada);
  const wish = play(nowMs + 600, { tick: 384 });
  ask(ada, wish);
  await tells(ben, wish);
  await ping(ben, true);
  await here.kill();
  await ada.closed;
  const again = await come(there, band.leader);
  expect(lastTold(again)).toEqual(lastTold(ben));
  expect(lastTold(again)).toMatchObject({ kind: "word", wish });
  const after = await clockOf(again);
  expect(apartMs(before.agreement, after.agreement)).toBeLessThan(50);
  const turned = play(nowMs + 900, { percent: 110 });
  ask(again, turned);
  await tells(ben, turned);
});
