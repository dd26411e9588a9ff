/**
 * Our server under load beside two baselines, in turns: a server that keeps documents in memory and
 * promises nothing, and one that only passes on.
 */
import { loadavg } from "node:os";
import { percentile } from "../figure.ts";
import { type FirstSync, firstSync } from "./first-sync.ts";
import { bytesOfFullBoard } from "./full-boards.ts";
import { closedLoop, type Loaded, openLoop } from "./load.ts";
import { boards } from "./rooms.ts";
import { startTarget, type Target } from "./target.ts";
import { type TwoNodes, twoNodes } from "./two-nodes.ts";
import { type Budget, line, type Measured, middle } from "./verdicts.ts";

const names = ["ours", "reference", "broadcast"] as const;
type Name = (typeof names)[number];
type Each<T> = Readonly<Record<Name, T>>;

/** How often everything is measured: three times, or as often as the command line says. */
const rounds = Math.max(1, Number(process.argv[2] ?? 3) || 3);
const openLoad = { perSecond: 2_000, seconds: 4 };
/** Below what the door lets through as a burst, so that a page's rate is not what is measured. */
const closedEdits = 260;
const warmEdits = 150;
const unloadingMs = 5_000;

/** No round begins later than this, however slow the machine is. */
const roundsMs = 90_000;

type Runs = { readonly open: Loaded[]; readonly closed: Loaded[] };

const targets: Each<Target> = {
  ours: await startTarget("ours"),
  reference: await startTarget("reference"),
  broadcast: await startTarget("broadcast"),
};

try {
  await measure();
} finally {
  await Promise.all(names.map((name) => targets[name].end()));
}

async function measure(): Promise<void> {
  console.log(`Node ${process.versions.node}, ${process.platform} ${process.arch}; load ${load()}`);
  for (const name of names) await warmUp(targets[name]);
  const before = (await unloaded()).bytes;
  const runs: Each<Runs> = {
    ours: { open: [], closed: [] },
    reference: { open: [], closed: [] },
    broadcast: { open: [], closed: [] },
  };
  const until = performance.now() + roundsMs;
  for (let round = 0; round < rounds && performance.now() < until; round += 1) {
    await oneRound(runs);
  }
  const after = (await unloaded()).bytes;
  const full = {
    ours: (await bytesOfFullBoard(targets.ours)) / 1024,
    reference: (await bytesOfFullBoard(targets.reference)) / 1024,
  };
  await unloaded();
  const sync = {
    ours: await firstSync(targets.ours),
    reference: await firstSync(targets.reference),
  };
  for (const text of told(runs, sync)) console.log(text);
  const fullBoard = "memory for a full board with two who have it open";
  console.log(line(fullBoard, "KB", full, [atMost("reference", 0.45)]));
  for (const text of toldOfNodes(await twoNodes())) console.log(text);
  console.log(
    line("heap after unloading, of the one before", "times", { ours: after / before }, [
      atMost("ours", 1.1),
    ]),
  );
  console.log(`load at the end ${load()}`);
}

/**
 * Everything that is measured, in small: what runs for the first time also stays on the heap. A
 * round lasts seconds, so without the longer part the engine's compiler would be measured too.
 */
async function warmUp(target: Target): Promise<void> {
  const { warm } = target.offer;
  await closedLoop(target, warm, warmEdits);
  await openLoop(target, warm, { perSecond: 1_000, seconds: 8 });
  await closedLoop(target, warm, warmEdits);
}

async function oneRound(runs: Each<Runs>): Promise<void> {
  for (const name of names) {
    const { measured } = targets[name].offer;
    runs[name].open.push(await openLoop(targets[name], measured, openLoad));
  }
  for (const name of names) {
    const { measured } = targets[name].offer;
    runs[name].closed.push(await closedLoop(targets[name], measured, closedEdits));
  }
}

/** What our server keeps once everybody has left, and time has passed for it to let go. */
async function unloaded() {
  await new Promise((resolve) => setTimeout(resolve, unloadingMs));
  return targets.ours.usage();
}

function told(runs: Each<Runs>, sync: { ours: FirstSync; reference: FirstSync }): string[] {
  const each = (value: (run: Runs) => number): Measured => ({
    ours: value(runs.ours),
    reference: value(runs.reference),
    broadcast: value(runs.broadcast),
  });
  const propagation = (share: number) =>
    each(({ open }) => middle(open.map((run) => percentile(run.propagationMs, share))));
  const acknowledgement = (share: number) => ({
    ours: middle(runs.ours.open.map((run) => percentile(run.acknowledgementMs, share))),
  });
  const cpu = (kind: keyof Runs) => each((run) => middle(run[kind].map((r) => r.cpuPerThousand)));
  const syncs = (kind: keyof FirstSync) => ({
    ours: percentile(sync.ours[kind], 0.5),
    reference: percentile(sync.reference[kind], 0.5),
  });
  const saturated = each(({ closed }) => middle(closed.map((run) => run.editsPerSecond)));
  // Only in the first round is what a document holds the same everywhere.
  const perBoard = each(({ open }) => (open[0]?.bytesConnected ?? 0) / boards / 1024);
  const at = `at ${openLoad.perSecond} edits/s`;
  return [
    line("edits, saturated", "edits/s", saturated, [
      atLeast("reference", 2.2),
      atLeast("broadcast", 0.6),
    ]),
    line("processor, saturated", "s per 1,000", cpu("closed")),
    line(`processor, ${at}`, "s per 1,000", cpu("open"), [atMost("reference", 0.8)]),
    line(`propagation p50, ${at}`, "ms", propagation(0.5), [atMost("broadcast", 1.3)]),
    line(`propagation p95, ${at}`, "ms", propagation(0.95)),
    line(`propagation p99, ${at}`, "ms", propagation(0.99), [atMost("ours", 10)]),
    line(`acknowledgement p50, ${at}`, "ms", acknowledgement(0.5)),
    line(`acknowledgement p95, ${at}`, "ms", acknowledgement(0.95)),
    line(`acknowledgement p99, ${at}`, "ms", acknowledgement(0.99), [atMost("ours", 150)]),
    line("memory for a connected board with hardly anything in it", "KB", perBoard),
    line("first sync of 158 KB, cold for ours alone, p50", "ms", syncs("coldMs"), [
      atMost("ours", 100),
    ]),
    line("first sync of 158 KB, open already, p50", "ms", syncs("warmMs")),
  ];
}

function toldOfNodes({ one, two }: TwoNodes): string[] {
  const at = (run: Loaded, share: number) => percentile(run.propagationMs, share);
  const added = at(two, 0.5) - at(one, 0.5);
  const told = `one ${at(one, 0.5).toPrecision(3)}, two ${at(two, 0.5).toPrecision(3)} ms`;
  return [
    `propagation p50 over nodes, at 600 edits/s: ${told}`,
    line("added by the second node, p50", "ms", { ours: added }, [atMost("ours", 1.5)]),
    line("propagation p99 over two nodes", "ms", { ours: at(two, 0.99) }),
  ];
}

function atMost(of: Budget["of"], value: number): Budget {
  return { of, at: "most", value };
}

function atLeast(of: Budget["of"], value: number): Budget {
  return { of, at: "least", value };
}

/** How busy the machine is: figures of a busy one are only good as ratios. */
function load(): string {
  return loadavg()
    .map((value) => value.toFixed(1))
    .join(" ");
}
