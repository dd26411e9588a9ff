/**
 * Hostile bytes: through 10,000 bad frames and 20,000 mutated payloads a real server lives, honest
 * edits go on being acknowledged and seen, and all documents stay equal. A server that applies
 * first fails the same.
 */
import { fileURLToPath } from "node:url";
import type { BoardId } from "@halflap/wire/api";
import { closeCode } from "@halflap/wire/messages";
import { expect, test } from "vitest";
import * as Y from "yjs";
import { claimLane, makeBand } from "../support/band.ts";
import { Visitor } from "../support/browser-session.ts";
import { documentsOnDisk } from "../support/disk.ts";
import { HonestPair } from "../support/honest-pair.ts";
import { badFrame, mutatedPayload, realUpdates } from "../support/hostile-frames.ts";
import { RawClient } from "../support/raw-client.ts";
import { seeded } from "../support/seeded.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

const seed = 20_190_417;
const victim = 1_000_001;
/** Of the same make as the victim's own, so that some of them say otherwise what it says. */
const real = [...realUpdates(victim), ...realUpdates(2_000_002), ...realUpdates(3_000_003)];

type Size = { readonly badFrames: number; readonly payloads: number };
type Side = {
  readonly server: TestServer;
  readonly board: BoardId;
  readonly leader: Visitor;
  readonly attacker: Visitor;
  readonly reader: Visitor;
};

/** Fewer than one socket may send at once. */
const perSocket = 240;

/** One that the attacker may write, being a player, and one that is another's alone. */
const documents = ["board", "lane-upper"] as const;
type Attacked = (typeof documents)[number];

async function attack({ attacker, board }: Side, { badFrames, payloads }: Size): Promise<void> {
  const chance = seeded(seed);
  let [framesLeft, payloadsLeft] = [badFrames, payloads];
  for (let turn = 0; framesLeft + payloadsLeft > 0; turn += 1) {
    const client = RawClient.open(attacker, board, documents[turn % 2] ?? "board");
    const isOpen = await wasHeard(client);
    let [frames, others] = [0, 0];
    for (let i = 0; isOpen && i < perSocket && i < framesLeft + payloadsLeft; i += 1) {
      if (chance.below(framesLeft + payloadsLeft) < framesLeft) {
        frames += 1;
        client.sendBytes(badFrame(chance));
      } else {
        others += 1;
        const payload = mutatedPayload(chance, real, victim);
        if (chance.happens(0.5)) client.sendUpdate(payload);
        else client.sendStep2(payload);
      }
    }
    if (isOpen && (await wasHeard(client))) {
      framesLeft = Math.max(0, framesLeft - frames);
      payloadsLeft = Math.max(0, payloadsLeft - others);
    }
    await client.close();
  }
}

/** Whether all that was sent was looked at; false when the attacker was closed for too much. */
function wasHeard(client: RawClient): Promise<boolean> {
  const onClosed = async () => {
    const { code } = await client.closed;
    if (code !== closeCode.tooFast) throw new Error(`the attacker was closed with ${code}`);
    return false;
  };
  return client.settled().then(() => true, onClosed);
}

/** Everything that went wrong for others, in words; and how long acknowledgements took. */
async function siege(side: Side, size: Size, onDisk: (document: Attacked) => readonly Y.Doc[]) {
  const faults: string[] = [];
  const { server, leader, reader, board } = side;
  const pairs: [Attacked, HonestPair][] = [];
  for (const document of documents) {
    pairs.push([document, await HonestPair.open(leader, reader, board, document, victim)]);
  }
  try {
    const over = attack(side, size);
    await Promise.all(pairs.map(([, pair]) => pair.workDuring(over)));
    for (const [document, pair] of pairs) {
      await pair.edit();
      await Promise.all([pair.writer.settled(), pair.reader.settled()]);
      const newcomer = await RawClient.synced(reader, board, document);
      const docs = [newcomer.doc, pair.writer.doc, pair.reader.doc, ...onDisk(document)];
      const found = docs.flatMap((doc) => faultsIn(doc, newcomer.doc, pair, document));
      faults.push(...found.map((fault) => `${document} ${fault}`));
      await Promise.all([newcomer.close(), pair.close()]);
    }
  } catch (fault) {
    faults.push(`honest work ended: ${fault}`);
  }
  const isUp = await fetch(server.address).then(
    () => true,
    () => false,
  );
  if (!isUp) faults.push("the server ended");
  return { faults, acknowledgedMs: pairs.flatMap(([, pair]) => pair.acknowledgedMs) };
}

/**
 * A player may take others' edits out of the chart or write over them, so there it counts only that
 * all have the same, the writer of the honest ones too.
 */
function faultsIn(doc: Y.Doc, other: Y.Doc, pair: HonestPair, document: Attacked) {
  const isPending = doc.store.pendingStructs !== null || doc.store.pendingDs !== null;
  const lost = document === "board" ? [] : pair.lostIn(doc);
  return [
    ...(isPending ? ["has parts that can't take their place"] : []),
    ...lost.map((key) => `lacks ${key}`),
    ...(isSame(doc, other) ? [] : ["differs from what a newcomer is given"]),
  ];
}

/** Equal state vectors are not enough: the content under them may differ. */
function isSame(a: Y.Doc, b: Y.Doc): boolean {
  return Buffer.compare(written(a), written(b)) === 0;
}

/** Written out from a document that took it in at once, so that nothing of its history shows. */
function written(doc: Y.Doc): Uint8Array {
  const again = new Y.Doc();
  Y.applyUpdate(again, Y.encodeStateAsUpdate(doc));
  return Y.encodeStateAsUpdate(again);
}

function percentile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
}

test("10,000 bad frames and 20,000 mutated payloads harm nobody else", async () => {
  const server = await startTestServer();
  const { board, leader, player, listener } = await makeBand(server.address);
  await claimLane(leader, board, "upper");
  const side = {
    ...{ server, board, leader: leader.visitor },
    ...{ attacker: player.visitor, reader: listener.visitor },
  };
  const size = { badFrames: 10_000, payloads: 20_000 };
  const { faults, acknowledgedMs } = await siege(side, size, (document) => [
    documentsOnDisk(server, board)[document],
  ]);
  expect(faults).toEqual([]);
  expect(acknowledgedMs.length).toBeGreaterThan(10);
  expect(server.logs()).not.toContain('"level":"fault"');
  const [p50, p99] = [0.5, 0.99].map((share) => percentile(acknowledgedMs, share).toFixed(1));
  process.stdout.write(`seed ${seed}: ${acknowledgedMs.length} honest edits, `);
  process.stdout.write(`acknowledged in p50 ${p50} ms, p99 ${p99} ms\n`);
  await removeTestServer(server);
}, 300_000);

test.each([
  ["ends", /server ended/],
  // Whose clocks were filled before it wrote is never seen again.
  ["catches", /differs|lacks|can't take their place|not heard of/],
])(
  "a server that applies first and %s at an exception is caught",
  async (way, wanted) => {
    const entry = fileURLToPath(new URL("../fakes/trusting-server.ts", import.meta.url));
    const server = await startTestServer({ entry, variables: { HALFLAP_TRUSTING: way } });
    const anybody = new Visitor(server.address);
    const board = "A".repeat(22) as BoardId;
    const side = { server, board, leader: anybody, attacker: anybody, reader: anybody };
    const { faults } = await siege(side, { badFrames: 300, payloads: 600 }, () => []);
    expect(faults.join("\n")).toMatch(wanted);
    await removeTestServer(server);
  },
  300_000,
);
