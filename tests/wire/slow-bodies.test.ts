/** W1: who asks is decided when all that they ask has come, however long it was on its way. */
import { once } from "node:events";
import { request } from "node:http";
import { apiPath } from "@halflap/wire/api";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Band, claimLane, makeBand } from "../support/band.ts";
import { expectOk } from "../support/browser-session.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;

beforeAll(async () => {
  server = await startTestServer();
});

afterAll(() => removeTestServer(server));

/** A leader's request that waits for the end of its body; what comes back ends it. */
async function begun({ leader, board }: Band, path: string, fields: object) {
  const body = JSON.stringify(fields);
  const { address, cookie = "" } = leader.visitor;
  const headers = {
    origin: address,
    cookie,
    "content-type": "application/json",
    "content-length": body.length,
  };
  const asked = request(`${address}${path}`, { method: "POST", headers });
  const answered = once(asked, "response");
  await new Promise((resolve) => asked.write(body.slice(0, 3), resolve));
  // The server has the head of it: a request after it on another line is answered.
  expectOk(await leader.visitor.ask("GET", apiPath.board(board)));
  return async (): Promise<number> => {
    asked.end(body.slice(3));
    const [answer] = await answered;
    answer.resume();
    return answer.statusCode;
  };
}

test("whoever is removed while their request comes is a stranger at its end", async () => {
  const band = await makeBand(server.address);
  const { board, leader, player } = band;
  await claimLane(player, board, "upper");
  const finishes = await Promise.all([
    begun(band, apiPath.lane(board, "upper", "hand-over"), { to: null }),
    begun(band, apiPath.name(board), { name: "Nobody" }),
    begun(band, apiPath.leader(board), { to: player.me.id }),
  ]);
  const { visitor } = player;
  expectOk(await leader.visitor.ask("POST", apiPath.leader(board), { to: player.me.id }));
  expectOk(await visitor.ask("DELETE", apiPath.member(board, leader.me.id)));
  for (const finish of finishes) expect.soft(await finish()).toBe(404);
  const claimed = await visitor.ask("POST", apiPath.lane(board, "upper", "claim"));
  expect(expectOk(claimed)).toMatchObject({ owners: { upper: player.me.id } });
});
