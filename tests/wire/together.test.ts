/** W10 over real sockets: who may speak, who is told, and what is refused. */
import { documentNames } from "@halflap/board/documents";
import { apiPath } from "@halflap/wire/api";
import { clockQuestionsBurst, togetherAsksBurst, togetherReachMs } from "@halflap/wire/limits";
import {
  encodeClockQuestion,
  encodeTogetherAsk,
  type SharedPlay,
  type SharedWish,
  type Told,
} from "@halflap/wire/together";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import * as Y from "yjs";
import { type Band, type Bandmate, makeBand } from "../support/band.ts";
import { expectOk } from "../support/browser-session.ts";
import { everythingOnDisk } from "../support/disk.ts";
import { type Heard, RawClient } from "../support/raw-client.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";
import { StockClient } from "../support/stock-client.ts";

let server: TestServer;
let band: Band;

beforeAll(async () => {
  server = await startTestServer();
});
beforeEach(async () => {
  band = await makeBand(server.address);
});
afterAll(() => removeTestServer(server));

const open = ({ visitor }: Bandmate, document = "board") =>
  RawClient.synced(visitor, band.board, document);

/** What the server's clock says now, in ms. */
async function timeOf(client: RawClient, isAlong = false): Promise<number> {
  const before = client.count("time");
  client.sendBytes(encodeClockQuestion({ sentMs: 1.5, isAlong }));
  await client.until(() => client.count("time") > before);
  const answers = client.heard.flatMap((frame) => (frame.kind === "time" ? [frame.answer] : []));
  const last = answers.at(-1);
  expect(last?.sentMs).toBe(1.5);
  return last?.serverMs ?? 0;
}

const play = (atMs: number, more: Partial<SharedPlay> = {}): SharedPlay => {
  return { kind: "playing", tick: 0, atMs, percent: 100, countIn: 0, loop: undefined, ...more };
};
const say = (client: RawClient, wish: SharedWish) => client.sendBytes(encodeTogetherAsk(wish));
const toldTo = (client: RawClient): readonly (Told | undefined)[] =>
  client.heard.flatMap((frame) => (frame.kind === "told" ? [frame.told] : []));
const isWord = (revision: number) => (frame: Heard) =>
  frame.kind === "told" && frame.told?.kind === "word" && frame.told.revision === revision;

test("W10 leader, player and listener play for all, each under their own name", async () => {
  const mates = [band.leader, band.player, band.listener];
  const clients = await Promise.all(mates.map((mate) => open(mate)));
  let revision = 0;
  for (const [index, client] of clients.entries()) {
    revision += 1;
    const wish = play(await timeOf(client), { percent: 100 - index });
    say(client, wish);
    for (const each of clients) await each.until(isWord(revision));
    for (const each of clients) {
      const by = mates[index]?.me.id;
      expect(toldTo(each).at(-1)).toEqual({ kind: "word", revision, by, wish });
    }
  }
  await Promise.all(clients.map((client) => client.close()));
});

test("W10 whoever comes later is told, and whoever comes to silence is told that", async () => {
  const ada = await open(band.leader);
  expect(toldTo(ada)).toEqual([{ kind: "nothing" }]);
  say(ada, play(await timeOf(ada), { tick: 768 }));
  await ada.until(isWord(1));
  const ben = await open(band.player);
  expect(toldTo(ben)).toEqual([toldTo(ada).at(-1)]);
  say(ben, { kind: "stopped" });
  await ada.until(isWord(2));
  expect(toldTo(ada).at(-1)).toMatchObject({ by: band.player.me.id, wish: { kind: "stopped" } });
  await Promise.all([ada.close(), ben.close()]);
});

test("W10 it goes on while somebody hears it, and ends when the last of them leaves", async () => {
  const [ada, ben, cleo] = await Promise.all([
    open(band.leader),
    open(band.player),
    open(band.listener),
  ]);
  say(ada, play(await timeOf(ada)));
  await ben.until(isWord(1));
  await timeOf(ben, true);
  await ada.close();
  await cleo.settled();
  expect(toldTo(cleo).at(-1)).toMatchObject({ kind: "word", revision: 1 });
  await ben.close();
  await cleo.until(
    (frame) =>
      frame.kind === "told" &&
      frame.told?.kind === "nothing" &&
      toldTo(cleo).at(-1)?.kind === "nothing",
  );
  await cleo.close();
});

test("W10 the stock client is told nothing of it and stays in sync", async () => {
  const stock = await StockClient.of(band.player.visitor, band.board, "board");
  const ada = await open(band.leader);
  say(ada, play(await timeOf(ada)));
  await ada.until(isWord(1));
  ada.doc.getMap("trial").set("still", "here");
  ada.sendUpdate(Y.encodeStateAsUpdate(ada.doc));
  await expect.poll(() => stock.doc.getMap("trial").get("still")).toBe("here");
  stock.close();
  await ada.close();
});

test("W10 asks out of bounds and asks on other documents reach nobody", async () => {
  const [ben, ada] = [await open(band.player), await open(band.leader)];
  const now = await timeOf(ben);
  const hostile: readonly Uint8Array[] = [
    encodeTogetherAsk(play(now + togetherReachMs + 60_000)),
    encodeTogetherAsk(play(now, { percent: 0 })),
    encodeTogetherAsk(play(now, { percent: 1e9 })),
    encodeTogetherAsk(play(now, { tick: Number.MAX_SAFE_INTEGER })),
    encodeTogetherAsk(play(now)).slice(0, -1),
    new Uint8Array([...encodeTogetherAsk(play(now)), 0]),
    new Uint8Array([104]),
    new Uint8Array([104, 2]),
    new Uint8Array([104, 1, 0, 0, 100, 0, 1, 1, 60]),
    new Uint8Array([102, 1]),
    new Uint8Array([102, 1, 2]),
    new Uint8Array([103, 1, 1]),
    new Uint8Array([105, 0]),
  ];
  for (const frame of hostile) ben.sendBytes(frame);
  await ben.settled();
  expect(ben.heard.filter(({ kind }) => kind === "refused")).toEqual(
    hostile.map(() => ({ kind: "refused", why: "malformed" })),
  );
  for (const document of documentNames.filter((name) => name !== "board")) {
    const client = await open(band.player, document);
    say(client, play(now));
    client.sendBytes(encodeClockQuestion({ sentMs: 0, isAlong: true }));
    await client.settled();
    expect(client.count("refused")).toBe(2);
    expect(client.count("told") + client.count("time")).toBe(0);
    await client.close();
  }
  await ada.settled();
  expect(toldTo(ada)).toEqual([{ kind: "nothing" }]);
  await Promise.all([ada.close(), ben.close()]);
});

test("W10 too many asks or questions are refused; nobody is closed, the others go on", async () => {
  const [ben, ada] = [await open(band.player), await open(band.leader)];
  const now = await timeOf(ben);
  for (let i = 0; i < togetherAsksBurst + 20; i += 1) say(ben, play(now));
  for (let i = 0; i < clockQuestionsBurst + 20; i += 1) {
    ben.sendBytes(encodeClockQuestion({ sentMs: i, isAlong: false }));
  }
  await ben.settled();
  const refusals = ben.heard.filter((frame) => frame.kind === "refused");
  expect(refusals.length).toBeGreaterThan(20);
  expect(new Set(refusals.map(({ why }) => why))).toEqual(new Set(["too-fast"]));
  await ada.settled();
  const revision = toldTo(ada).filter((told) => told?.kind === "word").length + 1;
  say(ada, { kind: "stopped" });
  await ben.until(isWord(revision));
  await Promise.all([ada.close(), ben.close()]);
});

test("W10 who is removed speaks no more, and nothing of it stands on the disk", async () => {
  const [ben, ada] = [await open(band.player), await open(band.leader)];
  say(ben, play(await timeOf(ben), { loop: undefined, percent: 77 }));
  await ada.until(isWord(1));
  const { visitor } = band.leader;
  expectOk(await visitor.ask("DELETE", apiPath.member(band.board, band.player.me.id)));
  say(ben, { kind: "stopped" });
  await ben.closed;
  await ada.settled();
  expect(toldTo(ada).some((told) => told?.kind === "word" && told.revision > 1)).toBe(false);
  expect(everythingOnDisk(server)).not.toContain("playing");
  await ada.close();
});
