/** W11: recordings go out as they are read, and whoever does not read one is not waited for. */
import { once } from "node:events";
import type { Server } from "node:http";
import { type AddressInfo, connect } from "node:net";
import { takeId } from "@halflap/board/ids";
import type { TakeCard } from "@halflap/wire/api";
import { takeBytesMax } from "@halflap/wire/limits";
import { createAdaptorServer } from "@hono/node-server";
import { Hono } from "hono";
import { afterEach, expect, test } from "vitest";
import { makeBoardId, makeMemberId } from "../store/secret.ts";
import type { Takes } from "../store/takes-port.ts";
import { soundAnswers } from "./take-sound.ts";

const member = {
  board: makeBoardId(),
  me: { id: makeMemberId(), name: "Ada", role: "player" },
} as const;
const sound = Buffer.alloc(takeBytesMax, "a recording, and no byte of it like another's");
const card = { id: takeId("A".repeat(22)), size: sound.length, type: "audio/wav" } as TakeCard;

let server: Server | undefined;
let bytesRead = 0;

afterEach(() => {
  server?.closeAllConnections();
  server?.close();
  bytesRead = 0;
});

async function served(stillMs?: number): Promise<number> {
  const takes: Pick<Takes, "read"> = {
    async read(_board, _take, { start, length }) {
      bytesRead += length;
      return new Uint8Array(sound.subarray(start, start + length));
    },
  };
  const answer = soundAnswers({ takes: takes as Takes, addressOf: () => "one" }, stillMs);
  const app = new Hono();
  app.get("/", (c) => answer(c, member, card));
  server = createAdaptorServer({ fetch: app.fetch }) as Server;
  server.listen(0, "127.0.0.1");
  await once(server, "listening");
  return (server.address() as AddressInfo).port;
}

test.each([
  [undefined, 200, 0, sound.length],
  ["bytes=5-1500004", 206, 5, 1_500_005],
  ["bytes=8388600-", 206, 8_388_600, sound.length],
])("of the range %s, each byte once", async (range, status, start, end) => {
  const headers = new Headers(range === undefined ? [] : [["range", range]]);
  const answer = await fetch(`http://127.0.0.1:${await served()}/`, { headers });
  expect([answer.status, answer.headers.get("content-length")]).toEqual([status, `${end - start}`]);
  const body = Buffer.from(await answer.arrayBuffer());
  expect(body.equals(sound.subarray(start, end))).toBe(true);
});

test("a line that does not read ends, with little read from the store for it", async () => {
  const port = await served(1_000);
  const line = connect(port, "127.0.0.1").pause();
  line.on("error", () => {}); // it is ended at the other end
  line.write("GET / HTTP/1.1\r\nHost: here\r\n\r\n".repeat(5));
  const [socket] = await once(server as Server, "connection");
  await once(socket, "close");
  expect(bytesRead).toBeGreaterThan(0);
  // Kernels keep some megabytes for a line between two programs on one machine.
  expect(bytesRead).toBeLessThan(2 * sound.length);
  line.destroy();
});
