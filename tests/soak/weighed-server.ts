/**
 * A server that says on SIGUSR2 how many bytes of objects are alive, rooms and sockets with them.
 * With HALFLAP_TRIAL_LEAK=yes it forgets nothing that it loads: the variant that must be caught.
 */
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { readConfig } from "@halflap/server/config";
import { makeLog } from "@halflap/server/log";
import type { UpdateLog } from "@halflap/server/log-port";
import type { Store } from "@halflap/server/ports";
import { startServer } from "@halflap/server/server";

setFlagsFromString("--expose-gc");
const collect: unknown = runInNewContext("gc");
const kept: unknown[] = [];

const log = makeLog(
  (line) => process.stderr.write(line),
  () => new Date(),
);
const server = await startServer(readConfig(process.env), log, weighed);
process.on("SIGUSR2", () => void weigh());
process.stdout.write(`Halflap is on ${server.address}\n`);

async function weigh(): Promise<void> {
  const text = await (await fetch(server.metricsAddress ?? "")).text();
  const [rooms, sockets] = ["rooms", "sockets"].map((what) =>
    Number(new RegExp(`^halflap_${what} (\\d+)$`, "m").exec(text)?.[1]),
  );
  if (typeof collect === "function") collect();
  const { heapUsed, external, rss } = process.memoryUsage();
  process.stderr.write(
    `weighed ${JSON.stringify({ rooms, sockets, alive: heapUsed + external, rss })}\n`,
  );
}

function weighed(store: Store): Store {
  if (process.env.HALFLAP_TRIAL_LEAK !== "yes") return store;
  const load: UpdateLog["load"] = async (key) => {
    const stored = await store.log.load(key);
    kept.push(
      stored,
      Array.from({ length: 40_000 }, (_, i) => i + 0.5),
    );
    return stored;
  };
  return { ...store, log: { ...store.log, load } };
}
