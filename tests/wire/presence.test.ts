/** Presence: a socket speaks for its own member; forged, huge or stolen presence reaches nobody. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Band, type Bandmate, makeBand } from "../support/band.ts";
import { everythingOnDisk } from "../support/disk.ts";
import { type AwarenessEntry, type Heard, RawClient } from "../support/raw-client.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";
import { StockClient } from "../support/stock-client.ts";

let server: TestServer;
let band: Band;

beforeAll(async () => {
  server = await startTestServer();
  band = await makeBand(server.address);
});

afterAll(() => removeTestServer(server));

const open = ({ visitor }: Bandmate) => RawClient.synced(visitor, band.board, "board");
const stateOf = ({ me }: Bandmate, more = {}) => ({ member: me.id, name: me.name, ...more });
const speak = (client: RawClient, who: Bandmate, clock: number, more = {}): AwarenessEntry => {
  const entry = { client: client.doc.clientID, clock, state: stateOf(who, more) };
  client.sendAwareness([entry]);
  return entry;
};
const heardOf = (client: RawClient) =>
  client.heard.flatMap((frame) => (frame.kind === "awareness" ? frame.entries : []));
const has = (entry: AwarenessEntry) => (frame: Heard) =>
  frame.kind === "awareness" && frame.entries.some((each) => sameEntry(each, entry));
const sameEntry = (a: AwarenessEntry, b: AwarenessEntry) => JSON.stringify(a) === JSON.stringify(b);

test("one's own presence reaches the others and comes back, and a newcomer is told", async () => {
  const [ada, cleo] = [await open(band.leader), await open(band.listener)];
  const entry = speak(ada, band.leader, 1, { lane: "upper" });
  await cleo.until(has(entry));
  await ada.until(has(entry));
  const ben = await open(band.player);
  await ben.until(has(entry));
  await ada.close();
  const gone = { client: entry.client, clock: entry.clock, state: null };
  await cleo.until(has(gone));
  await Promise.all([cleo.close(), ben.close()]);
});

test("forged presence reaches nobody and no disk, while the forger's own does", async () => {
  const [ada, ben] = [await open(band.leader), await open(band.player)];
  speak(ada, band.leader, 1);
  const own = speak(ben, band.player, 1);
  await ada.until(has(own));
  const { clientID } = ben.doc;
  const canary = "canary-5f1c";
  ben.sendAwareness([{ client: clientID, clock: 2, state: stateOf(band.leader, { canary }) }]);
  ben.sendAwareness([
    { client: clientID, clock: 2, state: { ...stateOf(band.player), name: canary } },
  ]);
  ben.sendAwareness([
    { client: ada.doc.clientID, clock: 9, state: stateOf(band.leader, { canary }) },
  ]);
  ben.sendAwareness([{ client: ada.doc.clientID, clock: 9, state: null }]);
  ben.sendAwareness([
    { client: clientID, clock: Number.MAX_SAFE_INTEGER, state: stateOf(band.player) },
  ]);
  ben.sendAwareness([
    { client: clientID, clock: 2, state: stateOf(band.player, { canary: canary.repeat(900) }) },
  ]);
  const last = speak(ben, band.player, 3, { lane: "lower" });
  await ada.until(has(last));
  const others = heardOf(ada).filter(({ client }) => client === clientID);
  expect(others.map(({ clock }) => clock)).toEqual([1, 3]);
  expect(JSON.stringify(heardOf(ada))).not.toContain(canary);
  expect(everythingOnDisk(server)).not.toContain(canary);
  expect(server.logs()).not.toContain(canary);
  await Promise.all([ada.close(), ben.close()]);
});

test("the stock client's presence is seen, and taken back when it leaves", async () => {
  const client = await StockClient.of(band.leader.visitor, band.board, "board");
  const raw = await open(band.player);
  client.provider.awareness.setLocalState(stateOf(band.leader));
  await raw.until(({ kind, ...frame }) =>
    kind === "awareness" && "entries" in frame
      ? frame.entries.some(({ client: id }) => id === client.doc.clientID)
      : false,
  );
  client.close();
  const isGone = ({ client: id, state }: AwarenessEntry) =>
    id === client.doc.clientID && state === null;
  await raw.until((frame) => frame.kind === "awareness" && frame.entries.some(isGone));
  await raw.close();
});

test("a page that comes back before its dead socket is noticed keeps its presence", async () => {
  const [first, cleo] = [await open(band.leader), await open(band.listener)];
  const before = speak(first, band.leader, 1);
  await cleo.until(has(before));
  const again = await open(band.leader);
  const after = { ...before, clock: 2, state: stateOf(band.leader, { lane: "upper" }) };
  again.sendAwareness([after]);
  await cleo.until(has(after));
  await first.close();
  await cleo.settled();
  expect(heardOf(cleo).filter(({ state }) => state === null)).toEqual([]);
  await Promise.all([again.close(), cleo.close()]);
});
