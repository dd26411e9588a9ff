/** What is left of an upgrade that was refused: nothing, whatever the other end does. */
import { EventEmitter, once } from "node:events";
import { createServer, type Server } from "node:http";
import { type AddressInfo, connect, type Socket } from "node:net";
import { Duplex } from "node:stream";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { WebSocketServer } from "ws";
import { hearUpgrades } from "./upgrade.ts";

let server: Server;
/** What the application was asked for. */
let asked: string[];
/** How many bodies of answers were let go of. */
let letGo: number;

beforeEach(async () => {
  [server, asked, letGo] = [createServer(), [], 0];
  const sockets = new WebSocketServer({ noServer: true });
  hearUpgrades({ server, sockets, fetch: ({ url }) => answerWithFile(new URL(url).pathname) });
  server.listen(0, "127.0.0.1");
  await once(server, "listening");
});

afterEach(() => void server.close());

/** As a page that stands in a file is answered. */
function answerWithFile(path: string): Response {
  asked.push(path);
  const file = new ReadableStream({
    cancel() {
      letGo += 1;
    },
  });
  return new Response(file);
}

const upgrade = "Host: here\r\nConnection: Upgrade\r\nUpgrade: websocket\r\n\r\n";

/** Asks for a socket over a line that this end leaves open. */
async function refusedAt(path: string): Promise<{ answer: string; near: Socket; far: Socket }> {
  const { port } = server.address() as AddressInfo;
  const near = connect({ port, host: "127.0.0.1", allowHalfOpen: true });
  const [far] = (await once(server, "connection")) as [Socket];
  const closed = once(far, "close");
  near.write(`GET ${path} HTTP/1.1\r\n${upgrade}`);
  let answer = "";
  for await (const part of near.iterator({ destroyOnReturn: false })) answer += String(part);
  await closed;
  return { answer, near, far };
}

test("an answer that nobody reads is let go of, and with it the file that it opened", async () => {
  const { answer, near } = await refusedAt("/sync/b/board");
  expect(answer).toMatch(/^HTTP\/1\.1 200 OK\r\n.*\r\n\r\n$/s);
  expect({ asked, letGo }).toEqual({ asked: ["/sync/b/board"], letGo: 1 });
  near.destroy();
});

test.each(["/", "/assets/main.js", "/sync/../", "/sync/%2e%2e/index.html", "/api/boards"])(
  "an upgrade at %s, where no sockets are, asks no route",
  async (path) => {
    const { answer, near } = await refusedAt(path);
    expect(answer).toMatch(/^HTTP\/1\.1 404 /);
    expect(asked).toEqual([]);
    near.destroy();
  },
);

test("a refused line is closed whole, also when the other end leaves its half open", async () => {
  const { near, far } = await refusedAt("/nowhere");
  expect(near.writable).toBe(true);
  expect(far.destroyed).toBe(true);
  near.destroy();
});

test("a line that does not take the refusal is closed after a while", async () => {
  vi.useFakeTimers();
  const heard = new EventEmitter() as Server;
  const sockets = new WebSocketServer({ noServer: true });
  hearUpgrades({ server: heard, sockets, fetch: () => new Response() });
  const stuck = new Duplex({ write: () => undefined, read: () => undefined });
  const request = { url: "/", headers: { upgrade: "websocket" }, rawHeaders: [] };
  heard.emit("upgrade", request, stuck, Buffer.alloc(0));
  await vi.advanceTimersByTimeAsync(1_000);
  expect(stuck.destroyed).toBe(false);
  await vi.advanceTimersByTimeAsync(10_000);
  expect(stuck.destroyed).toBe(true);
  expect(vi.getTimerCount()).toBe(0);
  vi.useRealTimers();
});
