/**
 * Honest saving over one line, against a server that does what the test says.
 *
 * @vitest-environment jsdom
 */
import { closeCode } from "@halflap/wire/messages";
import { createRoot } from "solid-js";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { Awareness } from "y-protocols/awareness";
import * as Y from "yjs";
import { type FakeServer, makeFakeServer } from "../../../../tests/fakes/socket.ts";
import { type Line, openLine } from "./line.ts";

const room = "b1/board";
let server: FakeServer;
let line: Line;
let refused: string[];

function open(): Line {
  const doc = new Y.Doc();
  return createRoot(() =>
    openLine({
      address: "ws://test/sync",
      room,
      epoch: 1,
      doc,
      awareness: new Awareness(doc),
      socket: server.Socket,
      onRefused: (refusal) => refused.push(refusal),
      onClosed: (code) => refused.push(`closed ${code}`),
    }),
  );
}

const write = (value: string) => line.doc.getMap("m").set("a", value);
const until = (check: () => void) => vi.waitFor(check, { interval: 5 });
const confirmed = () => until(() => expect(line.state().confirmed).toBe(true));

beforeEach(async () => {
  localStorage.clear();
  refused = [];
  server = makeFakeServer();
  line = open();
  await confirmed();
});

afterEach(() => line.close());

test("a change counts until the server says that it is saved", async () => {
  server.saves(false);
  write("1");
  await until(() => expect(server.doc(room).getMap("m").get("a")).toBe("1"));
  expect(line.state().changes).toBe(1);
  server.saves(true);
  await until(() => expect(line.state().changes).toBe(0));
});

test("a deletion alone also counts until it is saved", async () => {
  write("1");
  await until(() => expect(line.state().changes).toBe(0));
  server.saves(false);
  line.doc.getMap("m").delete("a");
  await until(() => expect(server.doc(room).getMap("m").has("a")).toBe(false));
  expect(line.state().changes).toBe(1);
  server.saves(true);
  await until(() => expect(line.state().changes).toBe(0));
});

test("changes made without the server are counted, and saved when it is back", async () => {
  server.reachable(false);
  await until(() => expect(line.state().connected).toBe(false));
  write("1");
  line.doc.getMap("m").delete("a");
  expect(line.state().changes).toBe(2);
  server.reachable(true);
  await until(() => expect(line.state().changes).toBe(0));
  expect(server.doc(room).getMap("m").has("a")).toBe(false);
});

test("the count of unsaved changes survives a reload", async () => {
  server.reachable(false);
  await until(() => expect(line.state().connected).toBe(false));
  write("1");
  write("2");
  line.close();
  line = open();
  expect(line.state().changes).toBe(2);
});

test("a change whose content this browser did not keep is not counted any more", async () => {
  server.reachable(false);
  await until(() => expect(line.state().connected).toBe(false));
  write("1");
  line.close();
  line = open();
  await line.loaded;
  expect(line.state().changes).toBe(0);
});

test("a change that nobody has any more is told once that is known", async () => {
  server.reachable(false);
  await until(() => expect(line.state().connected).toBe(false));
  write("1");
  line.close();
  line = open();
  await line.loaded;
  expect(line.state().lacksWork).toBe(false);
  server.reachable(true);
  await confirmed();
  expect(line.state().lacksWork).toBe(true);
});

test("a change that the server has is not missed, though this browser lost it", async () => {
  server.saves(false);
  write("1");
  await until(() => expect(server.doc(room).getMap("m").get("a")).toBe("1"));
  line.close();
  server.saves(true);
  line = open();
  await confirmed();
  expect(line.state().lacksWork).toBe(false);
});

test("a page that was just opened is not confirmed before the server has said so", async () => {
  line.close();
  server.saves(false);
  line = open();
  await until(() => expect(line.state().connected).toBe(true));
  expect(line.state().confirmed).toBe(false);
  server.saves(true);
  await confirmed();
});

test("a full disk keeps the change, says so, and is asked again", async () => {
  server.refuses(room, "store-full");
  write("1");
  await until(() => expect(line.state().storeFull).toBe(true));
  expect(line.state().changes).toBe(1);
  server.refuses(room, undefined);
  server.reachable(false); // stands for the wait until everything is offered again
  server.reachable(true);
  await until(() => expect(line.state()).toMatchObject({ storeFull: false, changes: 0 }));
  expect(refused).toEqual([]);
  expect(server.doc(room).getMap("m").get("a")).toBe("1");
});

test("a deletion whose answer was left aside is not saved, until one is taken", async () => {
  write("1");
  await until(() => expect(line.state().changes).toBe(0));
  server.reachable(false);
  await until(() => expect(line.state().connected).toBe(false));
  line.doc.getMap("m").delete("a");
  server.refuses(room, "others-first");
  server.reachable(true);
  await until(() => expect(line.state().connected).toBe(true));
  server.refuses(room, undefined);
  line.doc.getMap("m").set("b", 1);
  await until(() => expect(server.doc(room).getMap("m").get("b")).toBe(1));
  await until(() => expect(line.state().changes).toBe(1));
  server.reachable(false); // stands for the wait until the server asks again
  server.reachable(true);
  await until(() => expect(line.state().changes).toBe(0));
  expect([server.doc(room).getMap("m").has("a"), refused]).toEqual([false, []]);
});

test("a refusal that will not pass is reported and never counts as saved", async () => {
  server.refuses(room, "not-yours");
  write("1");
  await until(() => expect(refused).toEqual(["not-yours"]));
  expect(line.state().changes).toBe(1);
});

test("a final close code is reported and ends the line", async () => {
  server.close(4403);
  await until(() => expect(refused).toEqual(["closed 4403"]));
  expect(line.state().connected).toBe(false);
});

test("a document that the server can't read is said to be so, and asked for again", async () => {
  server.close(closeCode.unreadable);
  server.reachable(false); // stands for the wait until it is mended
  await until(() => expect(line.state()).toMatchObject({ unreadable: true, connected: false }));
  write("1");
  expect([refused, line.state().changes]).toEqual([[], 1]);
  server.reachable(true);
  await until(() => expect(line.state()).toMatchObject({ unreadable: false, changes: 0 }));
});
