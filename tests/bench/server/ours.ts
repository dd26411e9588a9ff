/**
 * Our server as it is, over a SQLite file of its own or what the environment names, with boards and
 * members already there; with "-- empty" it makes none.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { DocumentName } from "@halflap/board/documents";
import { readConfig } from "@halflap/server/config";
import { makeLog } from "@halflap/server/log";
import type { Store } from "@halflap/server/ports";
import {
  hashOf,
  makeBoardId,
  makeLinkId,
  makeMemberId,
  makeMessageId,
  makeSecret,
} from "@halflap/server/secret";
import { startServer } from "@halflap/server/server";
import type { BoardId, Me } from "@halflap/wire/api";
import { largeUpdates } from "./edits.ts";
import { boards, largeDocuments, warmBoards } from "./rooms.ts";
import type { Shared } from "./target.ts";
import { serveParent } from "./told-usage.ts";

const dayMs = 24 * 3600 * 1000;
const log = makeLog(
  (line) => (line.includes('"level":"fault"') ? process.stderr.write(line) : undefined),
  () => new Date(),
);

async function bandOf(store: Store, board: BoardId, lane: readonly Uint8Array[]) {
  const [adaSecret, benSecret, linkSecret] = [makeSecret(), makeSecret(), makeSecret()];
  const ada: Me = { id: makeMemberId(), name: "Ada", role: "leader" };
  const at = Date.now();
  const row = (update: Uint8Array) => ({
    key: { board, document: "lane-upper" as DocumentName },
    message: makeMessageId(),
    update,
    bindings: [],
  });
  const rows = lane.map(row);
  await store.people.makeBoard({ id: board, leader: ada, session: hashOf(adaSecret), at, rows });
  await store.people.addLink(board, hashOf(linkSecret), {
    id: makeLinkId(),
    role: "player",
    member: undefined,
    madeAt: at,
    expiresAt: at + dayMs,
    usesLeft: 1,
    revoked: false,
  });
  const newcomer = makeMemberId();
  const session = hashOf(benSecret);
  await store.people.redeem({ link: hashOf(linkSecret), session, at, name: "Ben", newcomer });
  await store.people.claim(board, "upper", ada.id);
  await store.people.claim(board, "lower", newcomer);
  return { ada: `halflap=${adaSecret}`, ben: `halflap=${benSecret}` };
}

/** The chart and the upper lane are written by the leader, the lower lane by the player. */
async function documentsOf(
  store: Store,
  large: readonly Uint8Array[] = [],
): Promise<readonly Shared[]> {
  const board = makeBoardId();
  const { ada, ben } = await bandOf(store, board, large);
  const written = (document: DocumentName, writerCookie: string, hearerCookie: string) => ({
    path: `/sync/${board}/${document}`,
    writerCookie,
    hearerCookie,
  });
  const upper = written("lane-upper", ada, ben);
  if (large.length > 0) return [upper];
  return [written("board", ada, ben), upper, written("lane-lower", ben, ada)];
}

async function many(count: number, make: () => Promise<readonly Shared[]>) {
  const made: Shared[] = [];
  for (let i = 0; i < count; i += 1) made.push(...(await make()));
  return made;
}

const folder = mkdtempSync(join(tmpdir(), "halflap-bench-"));
const stores: Store[] = [];
const config = readConfig({ ...process.env, HALFLAP_PORT: "0", HALFLAP_DATA: folder });
const isEmpty = process.argv.includes("empty");
const server = await startServer(config, log, (store) => {
  stores.push(store);
  return store;
});
const [store] = stores;
if (store === undefined) throw new Error("the server opened no store");
const full = largeUpdates();
serveParent(
  {
    address: server.address.replace("http", "ws"),
    greets: true,
    origin: server.address,
    warm: await many(isEmpty ? 0 : warmBoards, () => documentsOf(store)),
    measured: await many(isEmpty ? 0 : boards, () => documentsOf(store)),
    large: await many(isEmpty ? 0 : largeDocuments, () => documentsOf(store, full)),
  },
  async () => {
    await server.stop();
    rmSync(folder, { recursive: true, force: true });
  },
);
