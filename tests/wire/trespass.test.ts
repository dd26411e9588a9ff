/**
 * What a member may not write is refused and reaches neither a peer nor the disk; the same from its
 * owner does.
 */

import type { DocumentName } from "@halflap/board/documents";
import { afterAll, beforeAll, expect, test } from "vitest";
import * as Y from "yjs";
import { type Band, type Bandmate, claimLane, makeBand } from "../support/band.ts";
import { documentsOnDisk, rowsOnDisk } from "../support/disk.ts";
import { type Heard, RawClient } from "../support/raw-client.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
let band: Band;

beforeAll(async () => {
  server = await startTestServer();
  band = await makeBand(server.address);
  await claimLane(band.leader, band.board, "upper");
  await claimLane(band.player, band.board, "lower");
});

afterAll(() => removeTestServer(server));

/** An update of a fresh client that sets one mark, built on what the client has. */
function markOn(client: RawClient, mark: string, id = client.doc.clientID): Uint8Array {
  const doc = new Y.Doc();
  Y.applyUpdate(doc, Y.encodeStateAsUpdate(client.doc));
  doc.clientID = id;
  const before = Y.encodeStateVector(doc);
  doc.getMap("trial").set(mark, "here");
  return Y.encodeStateAsUpdate(doc, before);
}

const sameJson = (a: unknown, b: unknown) => JSON.stringify(a) === JSON.stringify(b);
const marksOf = (doc: Y.Doc) => Object.keys(doc.getMap("trial").toJSON());

/**
 * Sends by both ways that carry content, and answers what the writer, a peer and the disk have of
 * it.
 */
async function attempt(writer: Bandmate, document: DocumentName, mark: string) {
  const peer = await RawClient.synced(band.leader.visitor, band.board, document);
  const client = await RawClient.synced(writer.visitor, band.board, document);
  const rows = rowsOnDisk(server);
  client.sendUpdate(markOn(client, mark));
  client.sendStep2(markOn(client, mark));
  await client.until((frame) => frame.kind === "saved" && frame.decided === 2);
  await peer.settled();
  const result = {
    refusals: client.heard.flatMap((frame) => (frame.kind === "refused" ? [frame.why] : [])),
    peer: marksOf(peer.doc),
    disk: marksOf(documentsOnDisk(server, band.board)[document]),
    newRows: rowsOnDisk(server) - rows,
  };
  await Promise.all([client.close(), peer.close()]);
  return result;
}

const nothing = { refusals: ["not-yours", "not-yours"], newRows: 0 };

test("a lane: refused to another player and to a listener, taken from its owner", async () => {
  expect(await attempt(band.player, "lane-upper", "by-other")).toEqual({
    ...nothing,
    peer: [],
    disk: [],
  });
  expect(await attempt(band.listener, "lane-upper", "by-listener")).toMatchObject(nothing);
  expect(await attempt(band.leader, "lane-upper", "by-owner")).toEqual({
    refusals: [],
    peer: ["by-owner"],
    disk: ["by-owner"],
    newRows: 1,
  });
});

test("a lane: refused to the leader who does not own it", async () => {
  expect(await attempt(band.leader, "lane-lower", "by-leader")).toMatchObject({
    ...nothing,
    disk: [],
  });
});

test("the chart: refused to a listener, taken from players and leader", async () => {
  expect(await attempt(band.listener, "board", "by-listener")).toEqual({
    ...nothing,
    peer: [],
    disk: [],
  });
  expect(await attempt(band.player, "board", "by-player")).toMatchObject({ refusals: [] });
  expect(await attempt(band.leader, "board", "by-leader")).toMatchObject({
    refusals: [],
    peer: ["by-player", "by-leader"],
    disk: ["by-player", "by-leader"],
  });
});

test("talk: refused to everybody", async () => {
  for (const writer of [band.leader, band.player, band.listener]) {
    expect(await attempt(writer, "talk", "by-hand")).toEqual({ ...nothing, peer: [], disk: [] });
  }
});

test("an update under another's client id is refused; its owner's is taken", async () => {
  const owner = await RawClient.synced(band.leader.visitor, band.board, "board");
  const thief = await RawClient.synced(band.player.visitor, band.board, "board");
  const { clientID } = owner.doc;
  const first = markOn(owner, "first", clientID);
  Y.applyUpdate(owner.doc, first);
  owner.sendUpdate(first);
  await thief.until((frame) => frame.kind === "update");
  const stolen = markOn(owner, "second", clientID);
  thief.sendUpdate(stolen);
  thief.sendStep2(stolen);
  await thief.until((frame) => frame.kind === "saved" && frame.decided === 2);
  await owner.settled();
  expect(thief.count("refused")).toBe(1); // in an answer to step 1 it may be what the thief heard
  expect(marksOf(owner.doc)).not.toContain("second");
  expect(marksOf(documentsOnDisk(server, band.board).board)).not.toContain("second");
  owner.sendUpdate(stolen);
  await thief.until(() => marksOf(thief.doc).includes("second"));
  await owner.until((frame) => frame.kind === "saved" && frame.decided === 2);
  expect(marksOf(documentsOnDisk(server, band.board).board)).toContain("second");
  await Promise.all([owner.close(), thief.close()]);
});

test("a present member's client id can't be taken by writing under it first", async () => {
  const victim = await RawClient.synced(band.leader.visitor, band.board, "board");
  const thief = await RawClient.synced(band.player.visitor, band.board, "board");
  const { id: member, name } = band.leader.me;
  victim.sendAwareness([{ client: victim.doc.clientID, clock: 1, state: { member, name } }]);
  await thief.until((frame) => frame.kind === "awareness" && frame.entries.length > 0);
  thief.sendUpdate(markOn(thief, "squat", victim.doc.clientID));
  expect(await thief.until(({ kind }) => kind === "refused")).toMatchObject({
    why: "foreign-client",
  });
  victim.sendUpdate(markOn(victim, "mine"));
  await thief.until(() => marksOf(thief.doc).includes("mine"));
  await Promise.all([victim.close(), thief.close()]);
});

test("a deletion of what is not there yet is not stored; later edits stand", async () => {
  const victim = await RawClient.synced(band.leader.visitor, band.board, "board");
  const thief = await RawClient.synced(band.player.visitor, band.board, "board");
  const rows = rowsOnDisk(server);
  const ahead = new Uint8Array([0, 1, ...varUint(victim.doc.clientID), 1, 0, 0xc0, 0x84, 0x3d]);
  thief.sendUpdate(ahead);
  thief.sendStep2(ahead);
  await thief.until((frame) => frame.kind === "saved" && frame.decided === 2);
  expect(rowsOnDisk(server)).toBe(rows);
  victim.sendUpdate(markOn(victim, "kept"));
  await thief.until(() => marksOf(thief.doc).includes("kept"));
  await Promise.all([victim.close(), thief.close()]);
});

test("a client id that was seen in presence can't be taken while its page is away", async () => {
  const listener = await RawClient.synced(band.listener.visitor, band.board, "board");
  const away = await RawClient.synced(band.player.visitor, band.board, "board");
  const client = away.doc.clientID;
  const { id, name } = band.player.me;
  away.sendAwareness([{ client, clock: 1, state: { member: id, name } }]);
  const names = (state: unknown) => (frame: Heard) =>
    frame.kind === "awareness" &&
    frame.entries.some((entry) => entry.client === client && sameJson(entry.state, state));
  await listener.until(names({ member: id, name }));
  await away.close();
  await listener.until(names(null));
  const { me } = band.listener;
  listener.sendAwareness([{ client, clock: 9, state: { member: me.id, name: me.name } }]);
  await listener.settled();
  const back = await RawClient.synced(band.player.visitor, band.board, "board");
  back.sendStep2(markOn(back, "offline", client));
  await listener.until(() => marksOf(listener.doc).includes("offline"));
  expect(back.count("refused")).toBe(0);
  await Promise.all([listener.close(), back.close()]);
});

test("a lane handed over is writable by its new owner at once, by the old no more", async () => {
  const { board, leader, player } = await makeBand(server.address);
  await claimLane(leader, board, "upper");
  const old = await RawClient.synced(leader.visitor, board, "lane-upper");
  const fresh = await RawClient.synced(player.visitor, board, "lane-upper");
  const path = `/api/boards/${board}/lanes/upper/hand-over`;
  expect((await leader.visitor.ask("POST", path, { to: player.me.id })).status).toBe(200);
  old.sendUpdate(markOn(old, "late"));
  expect(await old.until(({ kind }) => kind === "refused")).toMatchObject({ why: "not-yours" });
  fresh.sendUpdate(markOn(fresh, "now"));
  await old.until(() => marksOf(old.doc).includes("now"));
  expect(marksOf(documentsOnDisk(server, board)["lane-upper"])).toEqual(["now"]);
  await Promise.all([old.close(), fresh.close()]);
});

function varUint(value: number): readonly number[] {
  const bytes: number[] = [];
  let rest = value;
  while (rest > 127) {
    bytes.push(128 | (rest % 128));
    rest = Math.floor(rest / 128);
  }
  return [...bytes, rest];
}
