/** The line that fails: each of its faults does what it says to what goes over it, and no more. */
import { once } from "node:events";
import { createServer, connect as join, type Server, type Socket } from "node:net";
import { afterEach, beforeEach, expect, test } from "vitest";
import { type FaultLine, startFaultLine } from "./fault-line.ts";

let server: Server;
let line: FaultLine;
/** What the far end has been told, by connection. */
let told: string[];
let sockets: Socket[];

beforeEach(async () => {
  told = [];
  sockets = [];
  server = createServer((socket) => {
    const number = told.push("") - 1;
    socket.on("error", () => undefined);
    socket.on("data", (bytes: Buffer) => {
      told[number] += bytes.toString();
      socket.write(bytes);
    });
  }).listen(0, "127.0.0.1");
  await once(server, "listening");
  const address = server.address();
  if (address === null || typeof address === "string") throw new Error("it does not listen");
  line = await startFaultLine(`tcp://127.0.0.1:${address.port}`);
});

afterEach(async () => {
  for (const socket of sockets) socket.destroy();
  await line.close();
  server.close();
});

function come(place: ReturnType<Server["address"]> = null) {
  const port =
    place !== null && typeof place === "object" ? place.port : new URL(line.address).port;
  const socket = join(Number(port), "127.0.0.1");
  sockets.push(socket);
  let heard = "";
  socket.on("error", () => undefined);
  socket.on("data", (bytes: Buffer) => {
    heard += bytes.toString();
  });
  const until = (wanted: string) =>
    new Promise<void>((resolve) => {
      const look = () => {
        if (heard.includes(wanted)) resolve();
        else socket.once("data", look);
      };
      look();
    });
  return { socket, until, heard: () => heard };
}

test("whole, it passes what comes, both ways, and the end of it", async () => {
  const { socket, until } = come();
  socket.write("one");
  await until("one");
  socket.write("two");
  socket.end();
  await until("onetwo");
  await once(socket, "close");
  expect(told).toEqual(["onetwo"]);
});

test("slow, it keeps the order", async () => {
  line.delay(20);
  const { socket, until } = come();
  for (let i = 0; i < 9; i += 1) socket.write(`${i}`);
  line.delay(0);
  socket.write("9");
  await until("0123456789");
});

test("cut, it ends what goes on and what comes, until it is healed", async () => {
  const [before, during] = [come(), come()];
  before.socket.write("one");
  await before.until("one");
  const ends = [once(before.socket, "close"), once(during.socket, "close")];
  await line.cut();
  await Promise.all([...ends, once(come().socket, "close")]);
  line.heal();
  const after = come();
  after.socket.write("three");
  await after.until("three");
});

test("a black hole passes nothing until it is healed, then all, in order", async () => {
  const { socket, until, heard } = come();
  socket.write("one");
  await until("one");
  line.hold();
  const newcomer = come();
  await once(newcomer.socket, "connect");
  socket.write("two");
  newcomer.socket.write("three");
  const past = come(server.address()); // what goes there and back past the line is slower than it
  past.socket.write("past");
  await past.until("past");
  expect([told, heard(), newcomer.heard()]).toEqual([["one", "past"], "one", ""]);
  line.heal();
  await Promise.all([until("onetwo"), newcomer.until("three")]);
});

test("what was held arrives also when its sender has given up", async () => {
  const { socket, until } = come();
  socket.write("one");
  await until("one");
  line.hold();
  socket.write("late");
  socket.end();
  await once(socket, "finish");
  line.heal();
  await once(socket, "close");
  expect(told).toEqual(["onelate"]);
});

test("it ends at the answer to a commit that writes and arrived, not at a read's", async () => {
  line.cutRepliesToCommits(1);
  const reader = come();
  reader.socket.write("BEGIN READ ONLY\0COMMIT\0");
  await reader.until("COMMIT\0");
  const writer = come();
  writer.socket.write("BEGIN ISOLATION LEVEL READ COMMITTED\0");
  await writer.until("COMMITTED\0");
  writer.socket.write("COMMIT\0");
  await once(writer.socket, "close");
  expect(told[1]).toMatch(/COMMIT\0$/);
  expect(writer.heard()).not.toMatch(/COMMIT\0/);
  expect(line.cutReplies).toBe(1);
});

test("it tells each time that a text goes to the far end, until nobody wants to know", async () => {
  const { socket, until } = come();
  let seen = 0;
  const unwatch = line.watch("heads", () => {
    seen += 1;
  });
  socket.write("the heads of all");
  await until("all");
  unwatch();
  socket.write("heads again");
  await until("again");
  expect(seen).toBe(1);
});
