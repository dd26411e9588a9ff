/** W11: recordings that are asked for and not read hold their member's places, and no other's. */
import { connect } from "node:net";
import { apiPath } from "@halflap/wire/api";
import { recordingsPerMemberMax, takeBytesMax } from "@halflap/wire/limits";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { makeBand } from "../support/band.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";
import { keepTake, recordingOf, wavOf } from "../support/take-sender.ts";

let server: TestServer;

beforeAll(async () => {
  server = await startTestServer();
});

afterAll(() => removeTestServer(server));

test("a line that asks without end and reads nothing is refused beyond a few", async () => {
  const { leader, player, board } = await makeBand(server.address);
  const take = await keepTake(leader.visitor, board, wavOf(takeBytesMax));
  const statusFor = async ({ visitor }: typeof leader) => {
    const answer = await recordingOf(visitor, board, take);
    await answer.arrayBuffer();
    return answer.status;
  };
  const { hostname, port, host } = new URL(server.address);
  const line = connect(Number(port), hostname).pause();
  const asked = [
    `GET ${apiPath.take(board, take.id)} HTTP/1.1`,
    `Host: ${host}`,
    `Cookie: ${leader.visitor.cookie}`,
    "\r\n",
  ].join("\r\n");
  line.write(asked.repeat(4 * recordingsPerMemberMax));
  await vi.waitFor(async () => expect(await statusFor(leader)).toBe(429), 10_000);
  expect(await statusFor(player)).toBe(200);
  line.destroy();
  await vi.waitFor(async () => expect(await statusFor(leader)).toBe(200), 10_000);
});
