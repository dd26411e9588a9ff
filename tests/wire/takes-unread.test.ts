/** W11: recordings that are asked for and not read hold their member's places, and no other's. */
import { connect } from "node:net";
import { apiPath } from "@halflap/wire/api";
import { recordingsPerMemberMax, takeBytesMax } from "@halflap/wire/limits";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { makeBand } from "../support/band.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";
import { keepTake, recordingOf, wavOf } from "../support/take-sender.ts";

const askedOnOneLine = 8;

let server: TestServer;

beforeAll(async () => {
  server = await startTestServer();
});

afterAll(() => removeTestServer(server));

test("lines that ask without end and read nothing are refused beyond a few", async () => {
  const { leader, player, board } = await makeBand(server.address);
  const take = await keepTake(leader.visitor, board, wavOf(takeBytesMax));
  const statusFor = async ({ visitor }: typeof leader) => {
    const answer = await recordingOf(visitor, board, take);
    await answer.arrayBuffer();
    return answer.status;
  };
  const { hostname, port, host } = new URL(server.address);
  const asked = [
    `GET ${apiPath.take(board, take.id)} HTTP/1.1`,
    `Host: ${host}`,
    `Cookie: ${leader.visitor.cookie}`,
    "\r\n",
  ].join("\r\n");
  // Few on each: a line that doesn't read is soon not read from either.
  const lines = Array.from({ length: (2 * recordingsPerMemberMax) / askedOnOneLine }, () => {
    const line = connect(Number(port), hostname).pause();
    line.write(asked.repeat(askedOnOneLine));
    return line;
  });
  await vi.waitFor(async () => expect(await statusFor(leader)).toBe(429), 10_000);
  expect(await statusFor(player)).toBe(200);
  for (const line of lines) line.destroy();
  await vi.waitFor(async () => expect(await statusFor(leader)).toBe(200), 10_000);
});
