/** A real server killed in the middle of work, again and again, and what its disk holds then. */
import { fileURLToPath } from "node:url";
import type { BoardId } from "@halflap/wire/api";
import { Visitor } from "../support/browser-session.ts";
import { documentsOnDisk } from "../support/disk.ts";
import { RawClient } from "../support/raw-client.ts";
import { decidedOf, saidIn, say } from "../support/say.ts";
import { type Chance, seeded } from "../support/seeded.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

export type Kills = {
  readonly kills: number;
  /** Edits that were said to be saved. */
  readonly saved: number;
  /** Those of them that are not on the disk. */
  readonly lost: number;
  /** Edits that were sent, not said to be saved, and are gone: the kills fell in the middle. */
  readonly cutOff: number;
  /** Keys that a newcomer was not given although they are on the disk. */
  readonly unread: number;
};

/** The variant that a run must catch. */
export const hastyEntry = fileURLToPath(new URL("./hasty-server.ts", import.meta.url));

const editsEach = 80;
/** Edits that the kill finds on their way. */
const atTheEndMax = 40;

/** Kills a server so many times, each time after a number of decided edits that the seed gives. */
export async function runKills(kills: number, seed: number, entry?: string): Promise<Kills> {
  const chance = seeded(seed);
  const start = entry === undefined ? {} : { entry };
  let server = await startTestServer(start);
  const leader = new Visitor(server.address);
  const { board } = await leader.makeBoard();
  const variables = { HALFLAP_PORT: new URL(server.address).port };
  const saved = new Set<string>();
  let sum = { lost: 0, cutOff: 0, unread: 0 };
  for (let round = 0; round < kills; round += 1) {
    const work = await workUntilKilled(server, leader, board, round, chance);
    for (const key of work.saved) saved.add(key);
    server = await startTestServer({ ...start, folder: server.folder, variables });
    const stored = new Set(Object.keys(saidIn(documentsOnDisk(server, board).board)));
    const reader = await RawClient.synced(leader, board, "board");
    const read = saidIn(reader.doc);
    await reader.close();
    sum = {
      lost: [...saved].filter((key) => !stored.has(key)).length,
      cutOff: sum.cutOff + work.sent.filter((key) => !saved.has(key) && !stored.has(key)).length,
      unread: sum.unread + [...stored].filter((key) => !Object.hasOwn(read, key)).length,
    };
  }
  await removeTestServer(server);
  return { kills, saved: saved.size, ...sum };
}

async function workUntilKilled(
  server: TestServer,
  leader: Visitor,
  board: BoardId,
  round: number,
  chance: Chance,
): Promise<{ readonly sent: readonly string[]; readonly saved: readonly string[] }> {
  const client = await RawClient.synced(leader, board, "board");
  const enough = 1 + chance.below(editsEach - 20);
  const sent: string[] = [];
  const edit = () => {
    const key = `${round}-${sent.length}`;
    sent.push(key);
    say(client, key, 1);
  };
  while (sent.length < editsEach && decidedOf(client) < enough) {
    edit();
    await new Promise((resolve) => setImmediate(resolve));
  }
  await client.until((frame) => frame.kind === "saved" && frame.decided >= enough);
  for (let more = chance.below(atTheEndMax); more >= 0; more -= 1) edit();
  await server.kill();
  return { sent, saved: sent.slice(0, decidedOf(client)) };
}
