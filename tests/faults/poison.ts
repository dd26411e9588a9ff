/**
 * One document with a row that nobody can read, put into its log past the servers, while pages work
 * on the others of the board at all nodes.
 */
import { randomBytes } from "node:crypto";
import type { BoardId } from "@halflap/wire/api";
import { closeCode } from "@halflap/wire/messages";
import pg from "pg";
import { RawClient } from "../support/raw-client.ts";
import { seeded } from "../support/seeded.ts";
import { inflict } from "./kinds.ts";
import { type Mood, Scene, ticksMax } from "./scene.ts";
import { headsText, type Stage } from "./stage.ts";

/** An update that says nothing, as Yjs writes it: no structs, no deletions. */
const harmless = Buffer.from([0, 0]);

const document = "lane-lower";

export type PoisonResult = {
  /** Why a newcomer to the document was sent away by each node that did not have it open. */
  readonly codes: readonly number[];
  /** Ticks until the pages on the other documents were equal; undefined when they never were. */
  readonly ticks: number | undefined;
  readonly faults: readonly string[];
};

/** Poisons a document that one node has open, works beside it, mends it, and starts all again. */
export async function poisonOne(
  stage: Stage,
  most = ticksMax,
  mood: Mood = "restless",
): Promise<PoisonResult> {
  const scene = await Scene.open(stage, seeded(9));
  const { board, leader } = scene.band;
  for (const page of scene.pages) if (page.options.document === document) scene.retire(page);
  const open = await RawClient.synced(scene.at(0, leader), board, document);
  const heal = await inflict("no wake-ups", { stage, scene, chance: seeded(9) });
  const mend = await poison(stage.database, board);
  await met(stage);
  await scene.work(60, mood);
  const codes = await Promise.all(
    [1, 2].map((node) => refusedFor(() => RawClient.open(scene.at(node, leader), board, document))),
  );
  const ticks = await scene.untilEqual(most);
  await Promise.all([mend(), heal()]);
  await open.close();
  // A document that was set aside is left alone for some minutes, but not longer than a start.
  await Promise.all(stage.nodes.map((node) => node.stop()));
  await Promise.all(stage.nodes.map((node) => node.startAgain()));
  await scene.untilEqual(most);
  return { codes, ticks, faults: await scene.close(most) };
}

/** Resolves when the node that has it open has surely looked at its log since. */
function met(stage: Stage): Promise<void> {
  let looks = 0;
  return new Promise((resolve) => {
    const unwatch = stage.node(0).database.watch(headsText, () => {
      looks += 1;
      if (looks < 2) return;
      unwatch();
      resolve();
    });
  });
}

/** Comes again, as the stock client does, until it is not asked to. */
async function refusedFor(open: () => RawClient): Promise<number> {
  for (;;) {
    const { code } = await open().closed;
    if (code !== closeCode.tryLater) return code;
  }
}

/** Adds the row; what comes back makes one of it that can be read. */
async function poison(database: string, board: BoardId): Promise<() => Promise<void>> {
  const message = randomBytes(8).toString("hex");
  await at(
    database,
    `WITH counted AS (
       UPDATE documents SET head = head + 1 WHERE board = $1 AND name = $2 RETURNING id, head
     )
     INSERT INTO updates (document, id, at, message, data)
     SELECT id, head, 0, $3, $4 FROM counted`,
    [board, document, message, randomBytes(40)],
  );
  return () => at(database, "UPDATE updates SET data = $2 WHERE message = $1", [message, harmless]);
}

async function at(database: string, statement: string, values: readonly unknown[]): Promise<void> {
  const client = new pg.Client({ connectionString: database });
  await client.connect();
  try {
    await client.query(statement, [...values]);
  } finally {
    await client.end();
  }
}
