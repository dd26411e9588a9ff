/**
 * Three nodes, PostgreSQL and Redis, and each of the faults that may come between them, by name.
 * That a sequence of the database's would lose rows is shown where the log is, in
 * apps/server/src/store/postgres/log.test.ts; who comes while others write, in joining.test.ts.
 */
import { followMs } from "@halflap/server/follower";
import { redisWakes } from "@halflap/server/wakes-redis";
import { unsavedBytesMax } from "@halflap/wire/limits";
import { closeCode } from "@halflap/wire/messages";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { outdatedTimeout } from "y-protocols/awareness";
import { makeBand } from "../support/band.ts";
import { RawClient } from "../support/raw-client.ts";
import { decidedOf, say } from "../support/say.ts";
import { seeded } from "../support/seeded.ts";
import { editsOf } from "./edits-in.ts";
import { inflict } from "./kinds.ts";
import { foldUnderLaggard } from "./laggard.ts";
import { poisonOne } from "./poison.ts";
import { present, shows } from "./presence.ts";
import { runFault } from "./run.ts";
import { Scene, ticksUntil } from "./scene.ts";
import { closeStores, headsText, openStores, Stage, type Stores } from "./stage.ts";

// Several processes a test, and a start costs seconds on a busy machine.
vi.setConfig({ testTimeout: 180_000, hookTimeout: 180_000 });

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

const short = { steps: 60, leastMs: () => 0 };

test("crash between commit and publish: the others find the row by looking", async () => {
  const scene = await Scene.open(stage, seeded(1));
  const [ada, ben] = [scene.page("Ada-board"), scene.page("Ben-board")];
  const node = stage.node(ben.place);
  scene.shun(ben.place, true);
  const killed = new Promise<void>((resolve) => {
    node.database.cutRepliesToCommits(1, () => resolve(node.kill()));
  });
  const edit = ben.edit(seeded(1));
  await killed;
  // Nobody is left who could bring it again: it is in the log alone.
  scene.retire(ben);
  expect(await scene.untilEqual()).toBeDefined();
  expect(editsOf(ada.doc)).toContain(edit);
  node.database.heal();
  await node.startAgain();
  expect(await scene.close()).toEqual([]);
});

test("publish off: whoever has a document open needs two looks at most, within 5 s", async () => {
  expect(2 * followMs).toBeLessThanOrEqual(5_000);
  const scene = await Scene.open(stage, seeded(2));
  const heal = await inflict("no wake-ups", { stage, scene, chance: seeded(2) });
  const [ada, ben] = [scene.page("Ada-board"), scene.page("Ben-board")];
  expect(ada.place).not.toBe(ben.place);
  const edit = ada.edit(seeded(2));
  await ticksUntil(() => ada.isSettled);
  let looks = 0;
  const unwatch = stage.node(ben.place).database.watch(headsText, () => {
    looks += 1;
  });
  expect(await ticksUntil(() => editsOf(ben.doc).includes(edit))).toBeDefined();
  unwatch();
  expect(looks).toBeLessThanOrEqual(2);
  await heal();
  expect(await scene.untilEqual()).toBeDefined();
  expect(await scene.close()).toEqual([]);
});

test("wake-ups lost, doubled and in another order change nothing", async () => {
  const words = redisWakes({ address: stage.redis.address, onLost: () => undefined });
  const said = new Set<string>();
  const late: (() => void)[] = [];
  words.hear((word) => {
    if (word === "perhaps-more" || said.has(JSON.stringify(word))) return;
    said.add(JSON.stringify(word));
    // Once more at once, and once when newer ones have been said.
    words.say(word);
    late.push(() => words.say(word));
    if (late.length > 5) for (const again of late.splice(0).reverse()) again();
  });
  const { faults, ticks } = await runFault(stage, 3, short, { name: "wake-ups lost at one node" });
  await words.close();
  expect(said.size).toBeGreaterThan(5);
  expect(ticks).toBeDefined();
  expect(faults).toEqual([]);
});

test("a node that stood still has all in the end", async () => {
  const lengths = { ...short, leastMs: () => 1_000 };
  const { faults, ticks } = await runFault(stage, 4, lengths, { name: "a node frozen" });
  expect(ticks).toBeDefined();
  expect(faults).toEqual([]);
});

test("compaction under a laggard, which takes the fold and what came after", async () => {
  const { faults, ticks, isFolded } = await foldUnderLaggard(stage);
  expect(isFolded).toBe(true);
  expect(ticks).toBeDefined();
  expect(faults).toEqual([]);
});

test("compaction under a laggard, and whoever folds is killed over it", async () => {
  const { faults, ticks } = await foldUnderLaggard(stage, { kill: "at the fold" });
  expect(ticks).toBeDefined();
  expect(faults).toEqual([]);
});

test("commit result unknown: with its reply cut a row is stored once", async () => {
  const scene = await Scene.open(stage, seeded(5));
  const cutBefore = stage.nodes.map(({ database }) => database.cutReplies);
  const heal = await inflict("replies to commits cut", { stage, scene, chance: seeded(5) });
  await scene.work(80, "steady"); // nothing is sent twice, so nothing may stand there twice
  expect(await scene.untilEqual()).toBeDefined();
  const cut = stage.nodes.map(({ database }, i) => database.cutReplies - (cutBefore[i] ?? 0));
  await heal();
  expect(Math.min(...cut)).toBeGreaterThan(0);
  expect(await scene.close()).toEqual([]);
});

test("Redis paused: all is said to be saved while it still is", async () => {
  const scene = await Scene.open(stage, seeded(6));
  const heal = await inflict("Redis paused", { stage, scene, chance: seeded(6) });
  await scene.work(80, "steady");
  expect(await ticksUntil(() => scene.isSettled)).toBeDefined();
  await heal();
  expect(await scene.untilEqual()).toBeDefined();
  expect(await scene.close()).toEqual([]);
});

test("PostgreSQL paused: nothing is said to be saved, and what waits is bounded", async () => {
  const band = await makeBand(stage.node(0).door.address);
  const flood = await RawClient.synced(band.leader.visitor, band.board, "board");
  const scene = await Scene.open(stage, seeded(7));
  const heal = await inflict("store paused", { stage, scene, chance: seeded(7) });
  await scene.work(40, "steady");
  const large = "z".repeat(200 * 1024);
  for (let sent = 0; sent <= unsavedBytesMax; sent += large.length) say(flood, `${sent}`, large);
  expect((await flood.closed).code).toBe(closeCode.tryLater);
  expect(decidedOf(flood)).toBe(0);
  await scene.work(40);
  await heal();
  expect(await scene.untilEqual()).toBeDefined();
  expect(await scene.close()).toEqual([]);
});

test("node death: those who were there are gone, and are seen where they come again", async () => {
  const scene = await Scene.open(stage, seeded(8));
  const { leader, player } = scene.band;
  const [ada, ben] = [await present(scene, 0, leader), await present(scene, 0, player)];
  await Promise.all([shows(ada, ben, true), shows(ben, ada, true)]);
  const gone = Promise.all([shows(ada, ben, false), shows(ben, ada, false)]);
  await stage.node(0).kill();
  await gone;
  ada.close();
  ben.close();
  const [again, also] = [await present(scene, 1, leader), await present(scene, 1, player)];
  await Promise.all([shows(again, also, true), shows(also, again, true)]);
  await stage.node(0).startAgain();
  again.close();
  also.close();
  expect(await scene.untilEqual()).toBeDefined();
  expect(await scene.close()).toEqual([]);
});

test("whom another node still shows is taken for gone after 30 s without a word", () => {
  expect(outdatedTimeout).toBeLessThanOrEqual(30_000);
});

test("one poison document is left alone at every node, and opens again once mended", async () => {
  const { codes, ticks, faults } = await poisonOne(stage);
  expect(codes).toEqual([closeCode.unreadable, closeCode.unreadable]);
  expect(ticks).toBeDefined();
  expect(faults).toEqual([]);
});
