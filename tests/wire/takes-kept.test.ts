/** W11: what is kept of takes when the server goes down, and when there is no room for more. */
import { connect } from "node:net";
import { readTalkState } from "@halflap/board/talk";
import { apiPath, type TakesAnswer } from "@halflap/wire/api";
import { takeBytesMax, takeBytesPerBoardMax, takesPerBoardMax } from "@halflap/wire/limits";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Band, makeBand } from "../support/band.ts";
import { expectOk, refusalOf, type Visitor } from "../support/browser-session.ts";
import { documentsOnDisk, everythingOnDisk } from "../support/disk.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";
import { keepTake, recordingOf, sendBody, takeBody, wavOf } from "../support/take-sender.ts";

let server: TestServer;

beforeAll(async () => {
  server = await startTestServer();
});

afterAll(() => removeTestServer(server));

async function again(variables: Readonly<Record<string, string>> = {}): Promise<void> {
  const port = new URL(server.address).port;
  server = await startTestServer({
    folder: server.folder,
    variables: { HALFLAP_PORT: port, ...variables },
  });
}

async function listOf({ leader, board }: Band) {
  const answer = await leader.visitor.ask("GET", apiPath.takes(board));
  return (expectOk(answer) as TakesAnswer).takes;
}

/** A take that is sent up to `bytes` of its body and no further. */
function begun(visitor: Visitor, board: Band["board"], body: Buffer, bytes: number) {
  const { hostname, port, host } = new URL(visitor.address);
  const line = connect(Number(port), hostname);
  line.on("error", () => {}); // the server is killed at the other end
  line.write(
    [
      `POST ${apiPath.takes(board)} HTTP/1.1`,
      `Host: ${host}`,
      `Origin: ${visitor.address}`,
      `Cookie: ${visitor.cookie}`,
      `Content-Length: ${body.length}`,
      "\r\n",
    ].join("\r\n"),
  );
  return new Promise<void>((resolve) => line.write(body.subarray(0, bytes), () => resolve()));
}

test("a kill keeps what was answered, and nothing of what was half sent", async () => {
  const band = await makeBand(server.address);
  const { leader, board } = band;
  const sound = wavOf(3_000_000, 5);
  const kept = await keepTake(leader.visitor, board, sound);
  const mark = Buffer.from("half a take");
  const half = Buffer.concat([wavOf(44), mark, Buffer.alloc(2_000_000, 1)]);
  await begun(leader.visitor, board, takeBody(half), 1_000_000);
  // The server has taken the half in: a request after it on another line is answered.
  expect((await leader.visitor.ask("GET", apiPath.board(board))).status).toBe(200);
  await server.kill();
  await again();
  expect(await listOf(band)).toEqual([kept]);
  expect(readTalkState(documentsOnDisk(server, board).talk).takes).toHaveLength(1);
  const answer = await recordingOf(leader.visitor, board, kept);
  expect(Buffer.from(await answer.arrayBuffer()).equals(sound)).toBe(true);
  expect(everythingOnDisk(server)).not.toContain(mark.toString());
});

test("a board holds so many bytes of takes; removing one makes room", async () => {
  const band = await makeBand(server.address);
  const { leader, player, board } = band;
  const many = takeBytesPerBoardMax / takeBytesMax;
  for (let i = 0; i < many; i += 1) {
    const { visitor } = i < 5 ? leader : player;
    await keepTake(visitor, board, wavOf(takeBytesMax));
  }
  const more = takeBody(wavOf(100));
  expect(refusalOf(await sendBody(player.visitor, board, more))).toBe("takes-full");
  const [first] = await listOf(band);
  if (first !== undefined) await leader.visitor.ask("DELETE", apiPath.take(board, first.id));
  expect((await sendBody(player.visitor, board, more)).status).toBe(201);
  expect(many).toBeLessThan(takesPerBoardMax);
});

test("a full disk refuses a take with words, and everything else goes on", async () => {
  await server.stop();
  await removeTestServer(server);
  server = await startTestServer({ variables: { HALFLAP_STORE_MAX_PAGES: "100" } });
  const band = await makeBand(server.address);
  const { leader, board } = band;
  const large = takeBody(wavOf(600_000));
  expect(refusalOf(await sendBody(leader.visitor, board, large))).toBe("store-full");
  expect(await listOf(band)).toEqual([]);
  await keepTake(leader.visitor, board, wavOf(1000));
  expect(await listOf(band)).toHaveLength(1);
});
