/**
 * A full store: said to the writer, not shown to others once it is known, and tried again by
 * itself.
 */
import { apiPath } from "@halflap/wire/api";
import { afterAll, beforeAll, expect, test } from "vitest";
import * as Y from "yjs";
import { type Band, makeBand } from "../support/band.ts";
import { refusalOf, smallCopy } from "../support/browser-session.ts";
import { documentsOnDisk } from "../support/disk.ts";
import { RawClient } from "../support/raw-client.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";
import { StockClient } from "../support/stock-client.ts";

const quota = { HALFLAP_STORE_MAX_PAGES: "60" };

let server: TestServer;
let band: Band;

beforeAll(async () => {
  server = await startTestServer({ variables: quota });
  band = await makeBand(server.address);
});

afterAll(() => removeTestServer(server));

const marksOf = (doc: Y.Doc) => Object.keys(doc.getMap("trial").toJSON()).sort();

/** 40 kB that don't compress, so that a few of them fill 60 pages of 4 KiB. */
function pageful(client: RawClient, key: string): Uint8Array {
  const doc = new Y.Doc();
  Y.applyUpdate(doc, Y.encodeStateAsUpdate(client.doc));
  const before = Y.encodeStateVector(doc);
  doc.getMap("trial").set(key, key.repeat(40_000 / key.length));
  return Y.encodeStateAsUpdate(doc, before);
}

test("an edit without room is refused, the next reach nobody, and reading goes on", async () => {
  const writer = await RawClient.synced(band.leader.visitor, band.board, "board");
  const peer = await RawClient.synced(band.player.visitor, band.board, "board");
  const keys = ["a1", "b2", "c3", "d4", "e5", "f6"];
  for (const [i, key] of keys.entries()) {
    writer.sendUpdate(pageful(writer, key));
    await writer.until((frame) => frame.kind === "saved" && frame.decided === i + 1);
  }
  expect(writer.heard).toContainEqual({ kind: "refused", why: "store-full" });
  await peer.settled();
  const stored = marksOf(documentsOnDisk(server, band.board).board);
  expect(stored.length).toBeGreaterThan(0);
  expect(stored.length).toBeLessThan(keys.length);
  // The one that showed that the disk is full was passed on before; it is its writer's to bring.
  const heard = marksOf(peer.doc).filter((key) => !stored.includes(key));
  expect(heard.length).toBeLessThanOrEqual(1);
  expect(marksOf(peer.doc)).toEqual(expect.arrayContaining(stored));
  expect(peer.count("refused")).toBe(0);

  const slots = Array.from({ length: 2000 }, (_, i) => ({ id: `s${i}`, chord: `Cmaj7 ${i}` }));
  const copy = { ...smallCopy(), setAside: { bars: [], slots } };
  const made = await band.leader.visitor.ask("POST", apiPath.boards, { name: "Ada", copy });
  expect(refusalOf(made)).toBe("store-full");
  expect((await band.leader.visitor.ask("GET", apiPath.boards)).status).toBe(200);
  const newcomer = await StockClient.of(band.listener.visitor, band.board, "board");
  expect(marksOf(newcomer.doc)).toEqual(stored);
  newcomer.close();
  await Promise.all([writer.close(), peer.close()]);
});

test("with room again, what was refused comes in when the server asks for it", async () => {
  const writer = await RawClient.synced(band.leader.visitor, band.board, "board");
  const lacking = pageful(writer, "later");
  writer.sendUpdate(lacking);
  await writer.until((frame) => frame.kind === "refused" && frame.why === "store-full");
  const asked = writer.count("step-1");
  await writer.until(() => writer.count("step-1") > asked);
  await writer.close();
  await server.stop();
  const variables = { HALFLAP_PORT: new URL(server.address).port };
  server = await startTestServer({ folder: server.folder, variables });
  const again = await RawClient.synced(band.leader.visitor, band.board, "board");
  again.sendStep2(lacking);
  await again.until((frame) => frame.kind === "saved" && frame.decided === 1);
  await again.close();
  const { board } = documentsOnDisk(server, band.board);
  expect(marksOf(board)).toContain("later");
});
