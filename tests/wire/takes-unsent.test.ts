/** W11: takes that are begun and not sent hold their member's place, and nobody else's. */
import { connect, type Socket } from "node:net";
import { apiPath } from "@halflap/wire/api";
import { takesAtOnceMax, takesPerAddressAtOnceMax } from "@halflap/wire/limits";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { type Band, makeBand } from "../support/band.ts";
import { refusalOf, type Visitor } from "../support/browser-session.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";
import { keepTake, sendBody, takeBody, wavOf } from "../support/take-sender.ts";

let server: TestServer;

beforeAll(async () => {
  server = await startTestServer();
});

afterAll(() => removeTestServer(server));

/** A line that says that a take comes, and then no more; and the first words of its answer. */
function begun(visitor: Visitor, board: Band["board"]) {
  const { hostname, port, host } = new URL(visitor.address);
  const line = connect(Number(port), hostname);
  line.on("error", () => {}); // the server may end what it refused
  line.write(
    [
      `POST ${apiPath.takes(board)} HTTP/1.1`,
      `Host: ${host}`,
      `Origin: ${visitor.address}`,
      `Cookie: ${visitor.cookie}`,
      "Content-Length: 1000000",
      "\r\n",
    ].join("\r\n"),
  );
  const answer = new Promise<string>((resolve) =>
    line.once("data", (bytes) => resolve(`${bytes}`.slice(0, 12))),
  );
  return { line, answer };
}

const end = (lines: readonly { line: Socket }[]) =>
  lines.forEach(({ line }) => void line.destroy());

test("of takes that one member begins all but one are refused; others' are kept", async () => {
  const { leader, player, board } = await makeBand(server.address);
  const lines = Array.from({ length: takesAtOnceMax }, () => begun(leader.visitor, board));
  let refused = 0;
  for (const { answer } of lines) void answer.then(() => (refused += 1));
  await vi.waitFor(() => expect(refused).toBe(takesAtOnceMax - 1), 10_000);
  const mine = await sendBody(leader.visitor, board, takeBody(wavOf(400)));
  expect(refusalOf(mine)).toBe("too-many");
  await keepTake(player.visitor, board);
  end(lines);
  // A place that is given back costs nothing of the rate of a member.
  await vi.waitFor(() => keepTake(leader.visitor, board), 10_000);
});

test("one address begins few takes, on however many boards", async () => {
  const bands = [];
  for (let i = 0; i <= takesPerAddressAtOnceMax; i += 1) bands.push(await makeBand(server.address));
  const lines = bands.map(({ leader, board }) => begun(leader.visitor, board));
  expect(await Promise.race(lines.map(({ answer }) => answer))).toBe("HTTP/1.1 429");
  end(lines);
});
