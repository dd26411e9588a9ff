/**
 * What somebody did in years without the server is more than a frame holds, by more authors than an
 * update may have: in pieces the server takes it, whole it does not.
 */
import { piecesOf } from "@halflap/board/update-pieces";
import { clientsPerUpdateMax, frameBytesMax, updateBytesMax } from "@halflap/wire/limits";
import { afterAll, beforeAll, expect, test } from "vitest";
import * as Y from "yjs";
import { Visitor } from "../support/browser-session.ts";
import { RawClient } from "../support/raw-client.ts";
import { decidedOf, saidIn } from "../support/say.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

const visits = clientsPerUpdateMax + 88;
const editsEach = 4;
const words = "as long as a line of a chart, and a little longer ".repeat(12);

let server: TestServer;
let leader: Visitor;

beforeAll(async () => {
  server = await startTestServer();
  leader = new Visitor(server.address);
});

afterAll(() => removeTestServer(server));

/** The same page, loaded again and again: each visit goes on from what the last one kept. */
function yearsOffline(from: Y.Doc): Y.Doc {
  const doc = new Y.Doc();
  Y.applyUpdate(doc, Y.encodeStateAsUpdate(from));
  for (let visit = 1; visit <= visits; visit += 1) {
    doc.clientID = 5_000_000 + ((visit * 7_919) % 1_000_003);
    for (let edit = 0; edit < editsEach; edit += 1) {
      doc.getMap("trial").set(`${visit}-${edit}`, `${words}${visit}`);
    }
    doc.getMap("trial").delete(`${visit - 1}-0`);
  }
  return doc;
}

test("in pieces all of it is taken, and is there for everybody", async () => {
  const { board } = await leader.makeBoard();
  const client = await RawClient.synced(leader, board, "board");
  const kept = yearsOffline(client.doc);
  const update = Y.encodeStateAsUpdate(kept, Y.encodeStateVector(client.doc));
  expect(update.length).toBeGreaterThan(frameBytesMax);
  const limits = { bytesMax: updateBytesMax, authorsMax: clientsPerUpdateMax };
  const pieces = piecesOf(update, limits) ?? [];
  for (const [number, piece] of pieces.entries()) {
    client.sendUpdate(piece);
    await client.until(() => decidedOf(client) > number);
  }
  expect(client.heard.filter(({ kind }) => kind === "refused")).toEqual([]);
  const newcomer = await RawClient.synced(leader, board, "board");
  expect(saidIn(newcomer.doc)).toEqual(saidIn(kept));
  expect(Object.keys(saidIn(newcomer.doc)).length).toBe(visits * editsEach - (visits - 1));
  await Promise.all([client.close(), newcomer.close()]);
});

test("whole, it ends the line, each time again", async () => {
  const { board } = await leader.makeBoard();
  const client = await RawClient.synced(leader, board, "board");
  client.sendStep2(Y.encodeStateAsUpdate(yearsOffline(client.doc)));
  expect((await client.closed).code).toBe(1009);
});
