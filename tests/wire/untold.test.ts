/** W8: what was committed is answered so, though the store can't be asked when it is to be told. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { readConfig } from "@halflap/server/config";
import { makeLog } from "@halflap/server/log";
import { StoreAway } from "@halflap/server/log-port";
import type { Store } from "@halflap/server/ports";
import { type RunningServer, startServer } from "@halflap/server/server";
import { apiPath, type BoardId } from "@halflap/wire/api";
import { afterAll, beforeAll, expect, test } from "vitest";
import { expectOk, refusalOf, Visitor } from "../support/browser-session.ts";
import { keepTake } from "../support/take-sender.ts";

let folder: string;
let server: RunningServer;
let isAway = false;
/** Whether it is so from the next claim on. */
let goesBehindClaim = false;

/** A store that can't be asked who stands on a board, which is the first question of telling. */
const reticent = (store: Store): Store => {
  const standing = (board: BoardId) =>
    isAway ? Promise.reject(new StoreAway("away")) : store.people.standing(board);
  const claim: Store["people"]["claim"] = async (...wanted) => {
    const claimed = await store.people.claim(...wanted);
    isAway = goesBehindClaim;
    return claimed;
  };
  return { ...store, people: { ...store.people, standing, claim } };
};

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "halflap-"));
  const log = makeLog(
    () => {},
    () => new Date(),
  );
  const variables = { HALFLAP_PORT: "0", HALFLAP_DATA: folder };
  server = await startServer(readConfig(variables), log, reticent);
});

afterAll(async () => {
  await server.stop();
  rmSync(folder, { recursive: true, force: true });
});

test("whoever joins just then has joined, once, and keeps their cookie", async () => {
  const leader = new Visitor(server.address);
  const { board, me } = await leader.makeBoard();
  const self = await leader.invite(board, "self");
  const phone = new Visitor(server.address);
  isAway = true;
  const joined = await phone.ask("POST", apiPath.join, { secret: self.secret });
  const named = await leader.ask("POST", apiPath.name(board), { name: "Ada L." });
  const take = await keepTake(leader, board);
  isAway = false;
  expect(expectOk(joined)).toEqual({ board, me });
  expect(expectOk(named)).toEqual({ done: true });
  expect(take.from).toBe(me.id);
  expect(expectOk(await phone.ask("GET", apiPath.board(board)))).toMatchObject({
    me: { id: me.id, name: "Ada L." },
  });
});

test("who claims a lane just then has it, and who removes the board has removed it", async () => {
  const leader = new Visitor(server.address);
  const { board, me } = await leader.makeBoard();
  goesBehindClaim = true;
  const claimed = await leader.ask("POST", apiPath.lane(board, "upper", "claim"));
  const removed = await leader.ask("DELETE", apiPath.board(board));
  [goesBehindClaim, isAway] = [false, false];
  expect(expectOk(claimed)).toEqual({ owners: { upper: me.id, lower: null } });
  expect(expectOk(removed)).toEqual({ done: true });
  expect(refusalOf(await leader.ask("GET", apiPath.board(board)))).toBe("not-found");
});
