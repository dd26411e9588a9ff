/** A log that is folded while one node stands still: what the others then have, it must get too. */
import { rowsBeforeCompaction } from "@halflap/server/compaction";
import { seeded } from "../support/seeded.ts";
import { readLogs } from "./evidence.ts";
import { passed, Scene, ticksMax, ticksUntil } from "./scene.ts";
import type { Stage } from "./stage.ts";

/** The node at which is written, and which folds when the last one leaves it. */
export const folding = 0;
/** The node that stands still. */
export const lagging = 1;
const other = 2;

export type FoldOptions = {
  /** When the node that folds is killed, if it is. */
  readonly kill?: "at the fold" | "between two commits";
  readonly most?: number;
};

export type FoldResult = {
  /** Whether the log is folded now. */
  readonly isFolded: boolean;
  readonly ticks: number | undefined;
  readonly faults: readonly string[];
};

/** Writes a long log at one node, folds it there while another is frozen, and thaws that one. */
export async function foldUnderLaggard(
  stage: Stage,
  { kill, most = ticksMax }: FoldOptions = {},
): Promise<FoldResult> {
  const scene = await Scene.open(stage, seeded(1));
  const [ada, ben, cleo] = ["Ada", "Ben", "Cleo"].map((name) => scene.page(`${name}-board`));
  if (ada === undefined || ben === undefined || cleo === undefined) throw new Error("who plays?");
  for (const page of scene.pages) page.open(page === cleo ? lagging : folding);
  await scene.untilEqual();
  // What was passed on meanwhile does not wait for it: the log alone tells.
  await stage.node(lagging).wakes.cut();
  stage.node(lagging).freeze();
  await writeLong(scene);
  const folds = kill === "at the fold" ? killAtFold(stage) : undefined;
  for (const page of [ada, ben]) page.open(other); // the last one who leaves a node has it folded
  await folds;
  if (kill === "between two commits") {
    await ticksUntil(async () => (await boardLog(stage, scene)).hasHusks);
    await stage.node(folding).kill();
  }
  const isFolded = async () => (await boardLog(stage, scene)).isFolded;
  if (kill === undefined) await ticksUntil(isFolded);
  stage.node(lagging).thaw();
  ben.edit(seeded(2));
  const ticks = await scene.untilEqual(most);
  stage.node(lagging).wakes.heal();
  if (!stage.node(folding).isUp) await stage.node(folding).startAgain();
  return { isFolded: await isFolded(), ticks, faults: await scene.close(most) };
}

/** Just more rows than a log keeps, by two pages: neither sends faster than it may. */
async function writeLong(scene: Scene): Promise<void> {
  const writers = scene.writers("board");
  const chance = seeded(3);
  for (let row = 0; row <= rowsBeforeCompaction; row += 1) {
    writers[row % writers.length]?.edit(chance);
    if (row % 50 === 0) await passed(1);
  }
  await ticksUntil(() => writers.every((page) => page.isSettled));
}

function killAtFold(stage: Stage): Promise<void> {
  const node = stage.node(folding);
  return new Promise((resolve) => {
    const unwatch = node.database.watch("SET folded", () => {
      unwatch();
      resolve(node.kill());
    });
  });
}

async function boardLog(stage: Stage, { band }: Scene) {
  const logs = await readLogs(stage.database, band.board);
  const log = logs.find(({ document }) => document === "board");
  const hasHusks = log?.rows.some(({ update }) => update.length === 0) === true;
  return { isFolded: (log?.folded ?? 0) > 0, hasHusks };
}
