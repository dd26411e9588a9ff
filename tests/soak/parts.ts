/** What a soak does over and over: each part in portions, with what went wrong in words. */
import { runComings } from "./comings.ts";
import { runConnects } from "./connects.ts";
import { runFaults, runRolling } from "./faults.ts";
import { hasStrace, traceSaved, trialDiskEntry } from "./fsync-first.ts";
import { runHostile } from "./hostile.ts";
import { runKills } from "./kills.ts";
import type { SoakPart } from "./portion.ts";
import { runRestarts } from "./restarts.ts";
import { runSchedule, scheduleStore } from "./schedule.ts";
import { runNodes } from "./two-nodes.ts";
import { runUndo } from "./undo-schedule.ts";

const schedules: SoakPart = {
  name: "schedules",
  unit: "schedules",
  goal: 1_000_000,
  async run(seed, isSmall) {
    const count = isSmall ? 20 : 200;
    const store = scheduleStore();
    const faults: string[] = [];
    let [edits, deaths] = [0, 0];
    for (let one = seed; one < seed + count; one += 1) {
      const result = await runSchedule(store, one);
      edits += result.edits;
      deaths += result.deaths;
      faults.push(...result.faults.map((fault) => `seed ${one}: ${fault}`));
    }
    await store.close();
    return { done: count, told: `${edits} edits, ${deaths} deaths of the server`, faults };
  },
};

const nodes: SoakPart = {
  name: "nodes",
  unit: "schedules of two nodes",
  goal: 100_000,
  async run(seed, isSmall) {
    const count = isSmall ? 10 : 200;
    const store = scheduleStore();
    const faults: string[] = [];
    let [deaths, moves] = [0, 0];
    for (let one = seed; one < seed + count; one += 1) {
      const result = await runNodes(store, one);
      deaths += result.deaths;
      moves += result.moves;
      faults.push(...result.faults.map((fault) => `seed ${one}: ${fault}`));
    }
    await store.close();
    return { done: count, told: `${moves} moves, ${deaths} deaths of a node`, faults };
  },
};

const comings: SoakPart = {
  name: "comings",
  unit: "interleavings",
  goal: 100_000,
  async run(seed, isSmall) {
    const count = isSmall ? 20 : 500;
    const store = scheduleStore();
    const faults: string[] = [];
    let total = 0;
    for (let one = seed; one < seed + count; one += 1) {
      const result = await runComings(store, one);
      total += result.comings;
      faults.push(...result.faults.map((fault) => `seed ${one}: ${fault}`));
    }
    await store.close();
    return { done: count, told: `${total} comings`, faults };
  },
};

const undo: SoakPart = {
  name: "undo",
  unit: "schedules",
  goal: 10_000,
  async run(seed, isSmall) {
    const count = isSmall ? 10 : 100;
    const faults: string[] = [];
    let taken = 0;
    for (let one = seed; one < seed + count; one += 1) {
      const result = runUndo(one);
      taken += result.taken;
      faults.push(...result.faults.map((fault) => `seed ${one}: ${fault}`));
    }
    return { done: count, told: `${taken} steps taken back or made again`, faults };
  },
};

const kills: SoakPart = {
  name: "kills",
  unit: "kills",
  goal: 3_000,
  async run(seed, isSmall) {
    const { kills, saved, lost, cutOff, unread } = await runKills(isSmall ? 1 : 20, seed);
    const faults = [
      ...(lost > 0 ? [`seed ${seed}: ${lost} edits said to be saved are lost`] : []),
      ...(unread > 0 ? [`seed ${seed}: ${unread} edits on the disk are not given out`] : []),
    ];
    return { done: kills, told: `${saved} saved, ${lost} lost, ${cutOff} cut off`, faults };
  },
};

/** A long run has the machine to itself, so here the goal for a restart is held to. */
const inOrderWithinMs = 10_000;

const restarts: SoakPart = {
  name: "restarts",
  unit: "restarts",
  goal: 50,
  async run(_seed, isSmall) {
    const { restarts, pages, slowestMs, lost } = await runRestarts(isSmall ? 1 : 5);
    const told = `${pages} pages, all in order within ${Math.round(slowestMs)} ms, ${lost} lost`;
    const faults = [
      ...(lost > 0 ? [`${lost} edits are lost`] : []),
      ...(slowestMs > inOrderWithinMs ? [`it took ${Math.round(slowestMs)} ms`] : []),
    ];
    return { done: restarts, told, faults };
  },
};

const connects: SoakPart = {
  name: "connects",
  unit: "connects",
  goal: 20_000,
  async run(_seed, isSmall) {
    const { connects, warm, after, faults } = await runConnects(isSmall ? 60 : 2_000);
    const told = `${warm} bytes alive when warm, ${after} after the last one left`;
    return { done: connects, told, faults };
  },
};

/** Minutes, not connects, are what finds a server that forgets too slowly. */
const memory: SoakPart = {
  name: "memory",
  unit: "minutes",
  goal: 120,
  portionMinutes: 120,
  async run(_seed, isSmall) {
    const minutes = isSmall ? 0.05 : 120;
    const overMs = minutes * 60_000;
    const { connects, warm, after, faults } = await runConnects(isSmall ? 60 : 20_000, { overMs });
    const told = `${connects} connects, ${warm} bytes alive when warm, ${after} after the last`;
    return { done: minutes, told, faults };
  },
};

const hostile: SoakPart = {
  name: "hostile",
  unit: "frames",
  goal: 4_000_000,
  async run(seed, isSmall) {
    const { frames, honestEdits, faults } = await runHostile(isSmall ? 200 : 20_000, seed);
    const told = `${honestEdits} honest edits beside them`;
    return { done: frames, told, faults: faults.map((fault) => `seed ${seed}: ${fault}`) };
  },
};

const fsync: SoakPart = {
  name: "fsync",
  unit: "traces",
  goal: 3,
  async run() {
    if (!hasStrace()) {
      const told = "not traced: strace (Debian's package of that name) is missing";
      return { done: 3, told, faults: [] };
    }
    const { said, syncs, early, earlyWithoutSyncs } = await traceSaved();
    const hasty = await traceSaved(trialDiskEntry, { HALFLAP_TRIAL_SYNC: "unwaited" });
    const faults = [
      ...(early > 0 ? [`${early} of ${said} were said to be saved before a sync`] : []),
      ...(earlyWithoutSyncs === 0 ? ["a trace without syncs was not caught"] : []),
      ...(hasty.early === 0 ? ["a server that does not wait for its syncs was not caught"] : []),
    ];
    return { done: 1, told: `${said} times "saved", ${syncs} syncs, ${early} too early`, faults };
  },
};

const faults: SoakPart = {
  name: "faults",
  unit: "faults",
  goal: 1_000,
  run: runFaults,
};

const rolling: SoakPart = {
  name: "rolling",
  unit: "rolling restarts",
  goal: 50,
  run: runRolling,
};

/** In the order in which a soak takes turns. */
export const soakParts: readonly SoakPart[] = [
  schedules,
  nodes,
  comings,
  undo,
  kills,
  hostile,
  connects,
  memory,
  restarts,
  faults,
  rolling,
  fsync,
];
