/** All that is counted about a running server, gathered from where it happens. */
import { closeCode } from "@halflap/wire/messages";
import type { WebSocketServer } from "ws";
import type { Config } from "../config.ts";
import type { Store } from "../store/store.ts";
import type { Quarantine } from "../sync/quarantine.ts";
import type { Rooms } from "../sync/rooms.ts";
import { gauges } from "./gauges.ts";
import { measured } from "./measured-log.ts";
import { type MetricsDoor, openMetricsDoor } from "./metrics-door.ts";
import { boardTrial, makeReadiness, type Readiness } from "./readiness.ts";
import { Tallies } from "./tallies.ts";
import { ownVersion } from "./version.ts";

export type Watch = {
  /** The store to use: the same one, its commits measured. */
  readonly store: Store;
  readonly tallies: Tallies;
  readonly readiness: Readiness;
  readonly version: string;
};

/** Watches a store from here on. */
export function watched(store: Store, now: () => number): Watch {
  const tallies = new Tallies();
  const clock = () => performance.now();
  const { log, isTakingRows } = measured(store.log, tallies, clock);
  const tryWriting = boardTrial(store.people, now);
  return {
    store: { ...store, log },
    tallies,
    readiness: makeReadiness({ isTakingRows, tryWriting, clock }),
    version: ownVersion(),
  };
}

const closeNames = new Map<number, string>(
  Object.entries(closeCode).map(([name, code]) => [code, name]),
);

/** Counts how sockets end: by our own codes, and all that the other end says as one. */
export function countCloses(sockets: WebSocketServer, tallies: Tallies): void {
  sockets.on("connection", (socket) => {
    socket.on("close", (code: number) => tallies.closed(closeNames.get(code) ?? "other"));
  });
}

export type MetricsOf = {
  readonly config: Config;
  readonly watch: Watch;
  readonly rooms: Rooms;
  readonly quarantine: Quarantine;
  readonly sockets: WebSocketServer;
  storeBytes(): number | undefined;
};

/** Opens the metrics where the settings say; undefined when they say nowhere. */
export async function openMetrics(parts: MetricsOf): Promise<MetricsDoor | undefined> {
  const { config, watch, rooms, quarantine, sockets, storeBytes } = parts;
  if (config.metrics === undefined) return undefined;
  const standing = {
    version: watch.version,
    rooms: () => rooms.size,
    setAside: () => quarantine.counts(),
    sockets: () => sockets.clients.size,
    storeBytes,
  };
  return openMetricsDoor(config.metrics, () => [...gauges(standing), ...watch.tallies.families()]);
}
