/**
 * Two hundred pages come to a board that takes a while to be read: none is told that it is in step
 * before it has everything.
 */
import { rmSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { copyOf, fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { frameBytesMax } from "@halflap/wire/limits";
import { closeCode } from "@halflap/wire/messages";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import type * as Y from "yjs";
import { Visitor } from "../support/browser-session.ts";
import { RawClient } from "../support/raw-client.ts";
import { startTestServer, type TestServer } from "../support/server.ts";
import { StockClient } from "../support/stock-client.ts";

// Several processes, and a start costs seconds on a busy machine.
vi.setConfig({ testTimeout: 180_000, hookTimeout: 180_000 });

const slowEntry = fileURLToPath(new URL("../soak/slow-server.ts", import.meta.url));
const members = 8;
const pagesEach = 25;

let folder: string;
let people: readonly Visitor[];
let board: Awaited<ReturnType<Visitor["makeBoard"]>>["board"];

beforeAll(async () => {
  const server = await startTestServer();
  folder = server.folder;
  const leader = new Visitor(server.address);
  board = (await leader.makeBoard("Ada", demoSolution())).board;
  const { secret } = await leader.invite(board, "listener");
  const listeners = Array.from({ length: members - 1 }, () => new Visitor(server.address));
  for (const [number, visitor] of listeners.entries()) await visitor.join(secret, `L${number}`);
  people = [leader, ...listeners];
  await server.stop();
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** All that the board's document says. */
const chartIn = (doc: Y.Doc) => JSON.stringify(copyOf({ ...emptyDocuments(), board: doc }));

/** How many pages of all had less than everything when they were told that they are in step. */
async function lackingOf(server: TestServer): Promise<number> {
  const documents = emptyDocuments();
  fillDocuments(documents, demoSolution());
  const wanted = chartIn(documents.board);
  const coming = people.flatMap(({ cookie }) =>
    Array.from({ length: pagesEach }, async () => {
      const visitor = new Visitor(server.address);
      visitor.cookie = cookie;
      const page = await StockClient.of(visitor, board, "board");
      const has = chartIn(page.doc);
      page.close();
      return has === wanted;
    }),
  );
  return (await Promise.all(coming)).filter((isWhole) => !isWhole).length;
}

async function trial(variables: Readonly<Record<string, string>>): Promise<number> {
  const server = await startTestServer({ entry: slowEntry, folder, variables });
  const lacking = await lackingOf(server);
  await server.stop();
  return lacking;
}

test(`none of ${members * pagesEach} is in step on less than everything`, async () => {
  expect(await trial({})).toBe(0);
});

test("a server that lets people in before it has read the board is caught", async () => {
  expect(await trial({ HALFLAP_TRIAL_EMPTY: "yes" })).toBeGreaterThan(0);
});

test("who sends too much before the board is read is closed, and others come in", async () => {
  const late = { HALFLAP_TRIAL_LATE_MS: "8000" };
  const server = await startTestServer({ entry: slowEntry, folder, variables: late });
  const [leader] = people;
  if (leader === undefined) throw new Error("there is a leader");
  const visitor = new Visitor(server.address);
  visitor.cookie = leader.cookie;
  const patient = RawClient.open(visitor, board, "board");
  const hasty = RawClient.open(visitor, board, "board");
  for (let sent = 0; sent < 5; sent += 1) hasty.sendBytes(new Uint8Array(frameBytesMax));
  expect((await hasty.closed).code).toBe(closeCode.tryLater);
  expect(patient.heard).toEqual([]);
  await patient.until(({ kind }) => kind === "step-1");
  await patient.close();
  await server.stop();
});
