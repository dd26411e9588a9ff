/** What people type, and secrets, stand in no log and no metric, whatever way they came in. */
import { apiPath, type BoardId } from "@halflap/wire/api";
import { expect, test } from "vitest";
import { type Band, makeBand } from "../support/band.ts";
import { smallCopy, Visitor } from "../support/browser-session.ts";
import { everythingOnDisk } from "../support/disk.ts";
import { RawClient } from "../support/raw-client.ts";
import { say } from "../support/say.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";
import { keepTake, sendBody, takeBody, usualHead, wavOf } from "../support/take-sender.ts";

/** Stands in every input; a secret is one of its own. */
const canary = "Canary7f3a";
const secretLike = `${canary}${"A".repeat(33)}`;

/** Good requests, which are stored. Answers the secrets that were given out. */
async function asABand(server: TestServer, { leader, board }: Band): Promise<readonly string[]> {
  const visitor = new Visitor(server.address);
  const made = await visitor.makeBoard(`${canary} name`, smallCopy(`${canary} title`));
  const { secret } = await visitor.invite(made.board, "player");
  const friend = new Visitor(server.address);
  await friend.join(secret, `${canary} friend`);
  await friend.ask("POST", apiPath.name(made.board), { name: `${canary} new` });
  const head = { ...usualHead, name: `${canary} take` };
  await keepTake(visitor, made.board, Buffer.concat([wavOf(44), Buffer.from(canary)]), head);
  const page = await RawClient.synced(leader.visitor, board, "board");
  say(page, `${canary} key`, `${canary} Cmaj9`);
  await page.until(({ kind }) => kind === "saved");
  await page.close();
  const cookies = [visitor, friend, leader.visitor].map(({ cookie }) => cookie?.split("=")[1]);
  return [secret, ...cookies.filter((value) => value !== undefined)];
}

/** Bad requests, which are refused in every way that there is. */
async function asAStranger(server: TestServer, { leader, board }: Band): Promise<void> {
  const stranger = new Visitor(server.address);
  const headers = {
    origin: server.address,
    "user-agent": canary,
    referer: `${server.address}/${canary}`,
    "x-forwarded-for": canary,
    authorization: canary,
    "sec-websocket-protocol": canary,
  };
  for (const path of [`/${canary}`, `/api/${canary}?${canary}=1`, `/api/boards/${canary}`]) {
    await stranger.ask("GET", path, undefined, headers);
    await stranger.ask("POST", path, { [canary]: canary }, headers);
  }
  await stranger.ask("GET", `/api/boards/${board}/takes/${canary}?x=${canary}#${canary}`);
  for (const body of [{ name: canary, copy: canary }, { [canary]: 1 }, canary, { name: 1 }]) {
    await stranger.ask("POST", apiPath.boards, body);
  }
  const broken = `{"name":"${canary}`;
  const json = { ...headers, "content-type": "application/json" };
  await fetch(`${server.address}/api/boards`, { method: "POST", headers: json, body: broken });
  await stranger.ask("POST", apiPath.join, { secret: secretLike, name: canary });
  await stranger.ask("POST", apiPath.boards, {}, { origin: `https://${canary}.example` });
  stranger.cookie = `halflap=${secretLike}`;
  await stranger.ask("GET", apiPath.board(board), undefined, headers);
  for (const body of [
    Buffer.from(canary),
    takeBody(Buffer.from(canary)),
    takeBody(wavOf(99), canary),
  ]) {
    await sendBody(leader.visitor, board, body);
  }
}

/** Sockets: turned away at the door, then bad frames of every kind behind it. */
async function atTheSockets(server: TestServer, { leader, listener, board }: Band): Promise<void> {
  const stranger = new Visitor(server.address);
  stranger.cookie = `halflap=${secretLike}`;
  const nowhere = canary.padEnd(22, "A") as BoardId;
  for (const [who, where, what] of [
    [stranger, board, "board"],
    [leader.visitor, nowhere, "board"],
    [leader.visitor, board, canary],
    [leader.visitor, board, `board?epoch=${canary}`],
  ] as const) {
    await RawClient.open(who, where, what).closed;
  }
  const guest = await RawClient.synced(listener.visitor, board, "board");
  guest.sendBytes(Buffer.from(canary));
  guest.sendUpdate(Buffer.from(canary));
  guest.socket.send(canary);
  const state = { member: canary, name: canary };
  guest.sendAwareness([{ client: 7, clock: 1, state }]);
  say(guest, canary, canary);
  await guest.settled();
  await guest.close();
}

test.each(["json", "text"])("no canary is in a log written as %s, nor in a metric", async (as) => {
  const variables = { HALFLAP_LOG: as, HALFLAP_METRICS: "0" };
  const server = await startTestServer({ variables });
  const band = await makeBand(server.address);
  const secrets = await asABand(server, band);
  await asAStranger(server, band);
  await atTheSockets(server, band);
  const metrics = /http:\/\/[\d.:]+\/metrics/.exec(server.logs())?.[0] ?? "";
  const told = `${server.logs()}\n${await (await fetch(metrics)).text()}`;
  const disk = everythingOnDisk(server);
  expect(await server.stop()).toBe(0);
  const logs = server.logs();
  // They did come in, and the log was written meanwhile: what is not there was left out.
  for (const kept of ["name", "title", "friend", "take", "key", "Cmaj9"]) {
    expect(disk).toContain(`${canary} ${kept}`);
  }
  expect(told).toMatch(/\/boards\/:board/);
  expect(told).toMatch(/malformed/);
  for (const where of [told, logs]) {
    expect(where.toLowerCase()).not.toContain(canary.toLowerCase());
    for (const id of [...secrets, band.board, band.leader.me.id]) expect(where).not.toContain(id);
  }
  for (const secret of secrets) expect(disk).not.toContain(secret);
  await removeTestServer(server);
});
