/**
 * What the checker is worth: each server, and the page, that is wrong in one place is caught, by
 * the rule that is there for it.
 */
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { seeded } from "../support/seeded.ts";
import type { BrokenName } from "./broken-logs.ts";
import { inflict, type KindName } from "./kinds.ts";
import { foldUnderLaggard } from "./laggard.ts";
import { runFault } from "./run.ts";
import { Scene, type SceneOptions, ticksUntil } from "./scene.ts";
import { closeStores, openStores, Stage, type Stores } from "./stage.ts";

/** A second after the healing, or two: what is wrong stays wrong. */
const most = 15;

let stores: Stores;

beforeAll(async () => {
  stores = await openStores();
});

afterAll(() => closeStores(stores));

async function faultsOf(name: KindName, broken?: BrokenName, options: SceneOptions = {}) {
  const lengths = { steps: 30, leastMs: () => 0 };
  return onStage(broken, (stage) => runFault(stage, 1, lengths, { ...options, name, most }));
}

async function onStage(
  broken: BrokenName | undefined,
  act: (stage: Stage) => Promise<{ readonly faults: readonly string[] }>,
): Promise<string> {
  const stage = await Stage.open(stores, broken === undefined ? {} : { broken });
  try {
    return (await act(stage)).faults.join("\n");
  } finally {
    await stage.close();
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

  test.each(["skips rows of others", "follows nobody"] as const)("%s is caught", async (broken) => {
    expect(await faultsOf("no wake-ups", broken)).toMatch(/holds something else than the log/);
  });

  test("takes no notice of folds is caught when it lags behind one", async () => {
    const faults = await onStage("takes no notice of folds", (stage) =>
      foldUnderLaggard(stage, { most }),
    );
    expect(faults).toMatch(/Cleo-board holds something else than the log/);
  });

  test("folds in two commits is caught when it is killed between them", async () => {
    const kill = "between two commits";
    const faults = await onStage("folds in two commits", (stage) =>
      foldUnderLaggard(stage, { most, kill }),
    );
    expect(faults).toMatch(/and the log has it up to/);
  });

  test("waits for Redis before it says stored says nothing while Redis is paused", async () => {
    const unsaid = await onStage("waits for Redis before it says stored", async (stage) => {
      const scene = await Scene.open(stage, seeded(1));
      const heal = await inflict("Redis paused", { stage, scene, chance: seeded(1) });
      await scene.work(30, "steady");
      const ticks = await ticksUntil(() => scene.isSettled, most);
      await heal();
      await scene.untilEqual();
      const faults = await scene.close();
      return { faults: ticks === undefined ? [...faults, "unsaid"] : faults };
    });
    expect(unsaid).toBe("unsaid");
  });
});

test("a page that makes an edit anew that it did not hear of is caught", async () => {
  const wrongly = "makes edits anew that it did not hear of";
  const faults = await faultsOf("pages cut off from a node", undefined, { wrongly });
  expect(faults).toMatch(/is there 2 times/);
});
