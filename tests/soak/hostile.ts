/** Bad frames and bent updates from a player, while two honest pages work beside them. */
import * as Y from "yjs";
import { claimLane, makeBand } from "../support/band.ts";
import { documentsOnDisk } from "../support/disk.ts";
import { HonestPair } from "../support/honest-pair.ts";
import { badFrame, mutatedPayload, realUpdates } from "../support/hostile-frames.ts";
import { RawClient } from "../support/raw-client.ts";
import { type Chance, seeded } from "../support/seeded.ts";
import { removeTestServer, startTestServer } from "../support/server.ts";

export type Hostile = {
  readonly frames: number;
  readonly honestEdits: number;
  /** What went wrong for the honest pages, in words. */
  readonly faults: readonly string[];
};

const victim = 1_000_001;
const real = [...realUpdates(victim), ...realUpdates(2_000_002)];
/** Fewer than one socket may send at once. */
const perSocket = 240;

/** So many frames of a seed at a lane that is another's, on a server of their own. */
export async function runHostile(frames: number, seed: number): Promise<Hostile> {
  const server = await startTestServer();
  const { board, leader, player, listener } = await makeBand(server.address);
  await claimLane(leader, board, "upper");
  const lane = "lane-upper";
  const pair = await HonestPair.open(leader.visitor, listener.visitor, board, lane, victim);
  const faults: string[] = [];
  const chance = seeded(seed);
  const attack = async () => {
    for (let left = frames; left > 0; left -= perSocket) {
      const client = await RawClient.synced(player.visitor, board, lane);
      for (let i = Math.min(left, perSocket); i > 0; i -= 1) sendOne(client, chance);
      await client.settled();
      await client.close();
    }
  };
  try {
    await pair.workDuring(attack());
    await pair.edit();
    const newcomer = await RawClient.synced(listener.visitor, board, lane);
    const docs = [newcomer.doc, pair.reader.doc, documentsOnDisk(server, board)[lane]];
    const lost = docs.flatMap((doc) => pair.lostIn(doc));
    faults.push(...lost.map((key) => `${key} is lost`));
    if (docs.some((doc) => !isSame(doc, newcomer.doc))) faults.push("two have not the same");
    await Promise.all([newcomer.close(), pair.close()]);
  } catch (fault) {
    faults.push(`honest work ended: ${String(fault)}`);
  }
  if (!server.isAlive()) faults.push("the server ended");
  await removeTestServer(server);
  return { frames, honestEdits: pair.acknowledgedMs.length, faults };
}

function sendOne(client: RawClient, chance: Chance): void {
  const kind = chance.below(3);
  if (kind === 0) client.sendBytes(badFrame(chance));
  else if (kind === 1) client.sendUpdate(mutatedPayload(chance, real, victim));
  else client.sendStep2(mutatedPayload(chance, real, victim));
}

function isSame(a: Y.Doc, b: Y.Doc): boolean {
  const isHeard = Buffer.compare(Y.encodeStateVector(a), Y.encodeStateVector(b)) === 0;
  const held = (doc: Y.Doc) => JSON.stringify(Object.entries(doc.getMap("trial").toJSON()).sort());
  return isHeard && held(a) === held(b);
}
