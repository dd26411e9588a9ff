/**
 * Lanes by raw requests: the first claim wins, the rest is refused with a reason, and talk tells
 * everybody.
 */
import type { LaneId } from "@halflap/board/board";
import { readTalkState } from "@halflap/board/talk";
import { apiPath, type BoardId, type LanesAnswer } from "@halflap/wire/api";
import { memberChangesPerMinute } from "@halflap/wire/limits";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Band, type Bandmate, claimLane, makeBand } from "../support/band.ts";
import { expectOk, refusalOf, Visitor } from "../support/browser-session.ts";
import { documentsOnDisk } from "../support/disk.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";
import { StockClient } from "../support/stock-client.ts";

let server: TestServer;
let band: Band;

beforeAll(async () => {
  server = await startTestServer();
  band = await makeBand(server.address);
});

afterAll(() => removeTestServer(server));

type Act = "claim" | "release" | "hand-over";
const askOn = (board: BoardId, { visitor }: Bandmate, lane: LaneId, act: Act, body?: unknown) =>
  visitor.ask("POST", apiPath.lane(board, lane, act), body);
const ask = (who: Bandmate, lane: LaneId, act: Act, body?: unknown) =>
  askOn(band.board, who, lane, act, body);
const ownersOf = (answer: Awaited<ReturnType<typeof ask>>) =>
  (expectOk(answer) as LanesAnswer).owners;

/** Several bands: a member changes lanes so often in a minute and no more. */
test.each([1, 2, 3, 4, 5])("of concurrent claims exactly one wins, 10 times over", async () => {
  const { board, leader, player } = await makeBand(server.address);
  const { secret } = await leader.visitor.invite(board, "player");
  const other = new Visitor(server.address);
  const third = { visitor: other, me: (await other.join(secret, "Dora")).me };
  const claimers = [leader, player, third];
  for (let round = 0; round < memberChangesPerMinute / 2; round += 1) {
    const claims = claimers.map((who) => askOn(board, who, "upper", "claim"));
    const answers = await Promise.all(claims);
    const winners = claimers.filter((_, i) => answers[i]?.status === 200);
    expect(winners).toHaveLength(1);
    expect(answers.filter((answer) => refusalOf(answer) === "lane-taken")).toHaveLength(2);
    const [winner] = winners;
    if (winner === undefined) continue;
    expect(ownersOf(await askOn(board, winner, "upper", "release")).upper).toBeNull();
  }
});

test("every change of an owner reaches an open page and the disk through talk", async () => {
  const page = await StockClient.of(band.listener.visitor, band.board, "talk");
  const owner = () => readTalkState(page.doc).owners.lower;
  await claimLane(band.player, band.board, "lower");
  await page.until(() => owner() === band.player.me.id);
  expect(readTalkState(documentsOnDisk(server, band.board).talk).owners.lower).toBe(
    band.player.me.id,
  );
  await ask(band.player, "lower", "hand-over", { to: band.leader.me.id });
  await page.until(() => owner() === band.leader.me.id);
  await ask(band.leader, "lower", "release");
  await page.until(() => owner() === undefined);
  page.close();
});

test("a member has one lane at most, and a claim of one's own lane changes nothing", async () => {
  await claimLane(band.player, band.board, "lower");
  expect(refusalOf(await ask(band.player, "upper", "claim"))).toBe("not-allowed");
  expect(ownersOf(await ask(band.player, "lower", "claim")).lower).toBe(band.player.me.id);
  await ask(band.player, "lower", "release");
});

test("a listener neither claims a lane nor is given one", async () => {
  expect(refusalOf(await ask(band.listener, "upper", "claim"))).toBe("not-allowed");
  await claimLane(band.player, band.board, "upper");
  const to = band.listener.me.id;
  expect(refusalOf(await ask(band.player, "upper", "hand-over", { to }))).toBe("not-allowed");
  await ask(band.player, "upper", "release");
});

test("a lane of somebody else can be released or handed over by the leader only", async () => {
  await claimLane(band.leader, band.board, "upper");
  expect(refusalOf(await ask(band.player, "upper", "release"))).toBe("lane-not-yours");
  const toMyself = { to: band.player.me.id };
  expect(refusalOf(await ask(band.player, "upper", "hand-over", toMyself))).toBe("lane-not-yours");
  await ask(band.leader, "upper", "release");
  await claimLane(band.player, band.board, "upper");
  expect(ownersOf(await ask(band.leader, "upper", "hand-over", { to: null })).upper).toBeNull();
});

test("nonsense is refused with words", async () => {
  expect(refusalOf(await ask(band.leader, "upper", "hand-over", { to: "nobody" }))).toBe(
    "member-unknown",
  );
  expect(refusalOf(await ask(band.leader, "upper", "hand-over", {}))).toBe("bad-body");
  const middle = `/api/boards/${band.board}/lanes/middle/claim`;
  expect(refusalOf(await band.leader.visitor.ask("POST", middle))).toBe("not-found");
});
