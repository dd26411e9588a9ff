/**
 * Somebody who may not write comes again with what others wrote at the same time: Yjs has settled
 * who wins in their page, and that is no edit of theirs.
 */
import { afterAll, beforeAll, expect, test } from "vitest";
import * as Y from "yjs";
import { type Band, type Bandmate, makeBand } from "../support/band.ts";
import { RawClient } from "../support/raw-client.ts";
import { decidedOf, saidIn, say } from "../support/say.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
let band: Band;

beforeAll(async () => {
  server = await startTestServer();
  band = await makeBand(server.address);
});

afterAll(() => removeTestServer(server));

const open = ({ visitor }: Bandmate) => RawClient.synced(visitor, band.board, "board");
const refusalsOf = ({ heard }: RawClient) => heard.filter(({ kind }) => kind === "refused");

test("a listener with two edits of one key, made at once, is not refused", async () => {
  const [ada, ben, cleo] = [
    await open(band.leader),
    await open(band.player),
    await open(band.listener),
  ];
  // Both before either has heard of the other's: the update of neither deletes anything.
  say(ada, "key", "hers");
  say(ben, "key", "his");
  await cleo.until(() => Y.encodeStateVector(cleo.doc).length > 1 && isBoth(cleo, ada, ben));
  expect(Object.hasOwn(saidIn(cleo.doc), "key")).toBe(true);
  const again = await open(band.listener);
  again.sendStep2(Y.encodeStateAsUpdate(cleo.doc));
  await again.until(() => decidedOf(again) >= 1 || refusalsOf(again).length > 0);
  expect(refusalsOf(again)).toEqual([]);
  await Promise.all([ada, ben, cleo, again].map((client) => client.close()));
});

function isBoth({ doc }: RawClient, ...others: readonly RawClient[]): boolean {
  return others.every((other) => Y.getState(doc.store, other.doc.clientID) > 0);
}
