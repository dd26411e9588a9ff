/**
 * What the checker is worth: each server, and the page, that is wrong in one place is caught, by
 * the rule that is there for it.
 */
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { seeded } from "../support/seeded.ts";
import type { BrokenName } from "./broken-logs.ts";
import { inflict, type KindName } from "./kinds.ts";
import { folding, foldUnderLaggard, lagging } from "./laggard.ts";
import { poisonOne } from "./poison.ts";
import { runFault } from "./run.ts";
import { Scene, type SceneOptions, ticksUntil } from "./scene.ts";
import { closeStores, openStores, Stage, type Stores } from "./stage.ts";

// Several processes a test, and a start costs seconds on a busy machine.
vi.setConfig({ testTimeout: 180_000, hookTimeout: 180_000 });

/** A second after the healing, or two: what is wrong stays wrong. */
const most = 15;
/** Three looks of a node at the log, in ticks. */
const looks = 60;

let stores: Stores;
let stage: Stage;

beforeAll(async () => {
  stores = await openStores();
  stage = await Stage.open(stores);
});

afterAll(async () => {
  await stage?.close(); // it may not have come to be
  await closeStores(stores);
});

/** What the checker says of a fault while one node is wrong. */
async function faultsOf(name: KindName, broken?: BrokenName, options: SceneOptions = {}) {
  // Pages that stay where they are: whoever comes anew is told all, by the wrong node too.
  const work = { steps: 40, leastMs: () => 0, mood: "steady" } as const;
  await become({ node: 0, broken });
  return (await runFault(stage, 1, work, { ...options, name, most })).faults.join("\n");
}

/** One node becomes wrong, and the others as they should be. */
async function become(wrong: { readonly node: number; readonly broken: BrokenName | undefined }) {
  for (const [number, node] of stage.nodes.entries()) {
    await node.become(number === wrong.node ? wrong.broken : undefined);
  }
}

describe("a server that", () => {
  test("says stored before the commit is caught while the store is paused", async () => {
    const faults = await faultsOf("store paused", "says stored before the commit");
    expect(faults).toMatch(/said that \S+ is saved, without its store/);
  });

  test("says stored before the commit is caught when it is killed", async () => {
    const faults = await faultsOf("a node killed", "says stored before the commit");
    expect(faults).toMatch(/is saved up to \d+, and the log has it up to/);
  });

  test("stores again under another message is caught by its rows", async () => {
    const faults = await faultsOf("replies to commits cut", "stores again under another message");
    expect(faults).toMatch(/is in 2 rows, sent 1 times/);
  });

  test("stores no deletion that stands alone is caught by what its pages were told", async () => {
    const faults = await faultsOf("no wake-ups", "stores no deletion that stands alone");
    expect(faults).toMatch(/told \S+ that deletion-\S+ is saved, and it is lost/);
  });

  test.each(["skips rows of others", "follows nobody"] as const)("%s is caught", async (broken) => {
    expect(await faultsOf("no wake-ups", broken)).toMatch(/holds something else than the log/);
  });

  test("takes no notice of folds is caught when it lags behind one", async () => {
    await become({ node: lagging, broken: "takes no notice of folds" });
    const { faults } = await foldUnderLaggard(stage, { most });
    expect(faults.join()).toMatch(/Cleo-board holds something else than the log/);
  });

  test("folds in two commits is caught when it is killed between them", async () => {
    await become({ node: folding, broken: "folds in two commits" });
    const { faults } = await foldUnderLaggard(stage, { most, kill: "between two commits" });
    expect(faults.join()).toMatch(/and the log has it up to/);
  });

  test("follows nobody once a document can't be read is caught", async () => {
    await become({ node: 0, broken: "follows nobody once a document can't be read" });
    expect((await poisonOne(stage, looks, "steady")).ticks).toBeUndefined();
  });

  test("waits for Redis before it says stored says nothing while Redis is paused", async () => {
    await become({ node: 0, broken: "waits for Redis before it says stored" });
    const scene = await Scene.open(stage, seeded(1));
    const heal = await inflict("Redis paused", { stage, scene, chance: seeded(1) });
    await scene.work(40, "steady");
    expect(await ticksUntil(() => scene.isSettled, most)).toBeUndefined();
    await heal();
    expect(await scene.untilEqual()).toBeDefined();
    expect(await scene.close()).toEqual([]);
  });
});

test("a page that makes an edit anew that it did not hear of is caught", async () => {
  const wrongly = "makes edits anew that it did not hear of";
  const faults = await faultsOf("pages cut off from a node", undefined, { wrongly });
  expect(faults).toMatch(/is there 2 times/);
});
