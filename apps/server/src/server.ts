/** The server put together: store, rooms, routes and sockets, started and stopped as one. */
import { once } from "node:events";
import type { Server } from "node:http";
import { networkInterfaces } from "node:os";
import { frameBytesMax } from "@halflap/wire/limits";
import { closeCode } from "@halflap/wire/messages";
import { createAdaptorServer } from "@hono/node-server";
import { WebSocketServer } from "ws";
import type { Config } from "./config.ts";
import { makeApp } from "./http/app.ts";
import { addressesBehind } from "./http/client-address.ts";
import { listedOrigins, type Origins, ownOrigins } from "./http/origin.ts";
import { Sessions } from "./http/session.ts";
import { hearUpgrades } from "./http/upgrade.ts";
import { addressesOf } from "./ops/addresses.ts";
import type { Log } from "./ops/log.ts";
import type { MetricsDoor } from "./ops/metrics-door.ts";
import { countCloses, type MetricsOf, openMetrics, type Watch, watched } from "./ops/watch.ts";
import { openChosenStore } from "./store/chosen-store.ts";
import { StoreBroken } from "./store/log-port.ts";
import type { Store } from "./store/store.ts";
import { EarlyBytes } from "./sync/early-frames.ts";
import { type LiveBoards, liveBoards } from "./sync/live-boards.ts";
import { startPulse } from "./sync/pulse.ts";
import { openChosenWakes } from "./wake/chosen-wakes.ts";

export type RunningServer = {
  /** Where the page is: http://127.0.0.1:4321 */
  readonly address: string;
  /** Where it is for other machines in the same network; none when it listens to this one alone. */
  readonly networkAddresses: readonly string[];
  /** Where its metrics are; undefined when they are told nowhere. */
  readonly metricsAddress: string | undefined;
  /** Every route and middleware that answers requests, as "GET /api/boards"; "ALL" = any method. */
  readonly routes: readonly string[];
  /** Resolves when the store can keep nothing more, and only another start helps. */
  readonly broken: Promise<void>;
  /** Takes no more, stores what is on its way, says goodbye to the sockets and closes the store. */
  stop(): Promise<void>;
};

/**
 * Opens the store and listens. Rejects when a port is taken or the store can't be opened; then
 * nothing stays open. `altered` is a test's: what it makes of the store takes the store's place.
 */
export async function startServer(
  config: Config,
  log: Log,
  altered: (store: Store) => Store = (store) => store,
): Promise<RunningServer> {
  const now = () => Date.now();
  const onLost = (fault: unknown) => log.fault("store-line-lost", fault);
  const chosen = await openChosenStore(config, now, onLost);
  const watch = watched(altered(chosen.store), now);
  const { store } = watch;
  const onFault = (fault: unknown) => log.fault("room-failed", fault);
  const onWakesLost = (fault: unknown) => log.fault("wake-line-lost", fault);
  const { broken, onStoreFault } = storeFaults(log);
  const live = liveBoards({
    store,
    onFault,
    onStoreFault,
    onSetAside: (key, fault) => log.fault("document-set-aside", fault, key),
    wakes: chosen.isShared ? openChosenWakes(config, onWakesLost) : undefined,
  });
  const { saveLoop, rooms, desk, quarantine, stopFollowing } = live;
  const sockets = new WebSocketServer({
    noServer: true,
    maxPayload: frameBytesMax,
    perMessageDeflate: false, // memory for each socket, and little to gain on edits of 50 bytes
  });
  const origins = config.origins === undefined ? ownOrigins : listedOrigins(config.origins);
  const app = assemble({ config, log, watch, live, origins, now, onFault });
  const server = createAdaptorServer({ fetch: app.fetch }) as Server;
  hearUpgrades({ server, sockets, fetch: app.fetch });
  countCloses(sockets, watch.tallies);
  const told = { config, watch, rooms, quarantine, sockets, storeBytes: chosen.bytes };
  const closeBehind = () => stopFollowing().then(() => store.close());
  const { port, metrics } = await openDoors(server, told, closeBehind);
  const stopPulse = startPulse({ rooms, desk, sockets: () => sockets.clients, onFault });
  return {
    ...addressesOf(config.host, port, networkInterfaces()),
    metricsAddress: metrics?.address,
    routes: [...new Set(app.routes.map(({ method, path }) => `${method} ${path}`))],
    broken,
    async stop() {
      watch.readiness.drain();
      stopPulse();
      rooms.stop();
      await stopFollowing();
      await saveLoop.flush(); // meanwhile it still answers, and says that it is not ready
      const closed = once(server, "close");
      server.close();
      await turn(); // what the flush told goes out behind its turn, and nothing behind a goodbye
      for (const socket of sockets.clients) socket.close(closeCode.goingAway, "server stops");
      server.closeIdleConnections();
      await Promise.race([closed, passed(goodbyeMs)]);
      for (const socket of sockets.clients) socket.terminate();
      server.closeAllConnections();
      await saveLoop.flush();
      await metrics?.close();
      await store.close();
    },
  };
}

/** How long a stop waits for the other ends to say goodbye. */
const goodbyeMs = 3_000;

function storeFaults(log: Log) {
  let tell = () => {};
  const broken = new Promise<void>((resolve) => {
    tell = resolve;
  });
  const onStoreFault = (fault: unknown) => {
    log.fault("store-failed", fault);
    if (fault instanceof StoreBroken) tell();
  };
  return { broken, onStoreFault };
}

type Parts = {
  readonly config: Config;
  readonly log: Log;
  readonly watch: Watch;
  readonly live: LiveBoards;
  readonly origins: Origins;
  readonly now: () => number;
  readonly onFault: (fault: unknown) => void;
};

function assemble(parts: Parts) {
  const { config, log, watch, live, origins, now, onFault } = parts;
  const { rooms, desk, titles, quarantine } = live;
  const { store, tallies, readiness, version } = watch;
  const { people, takes } = store;
  const sessions = new Sessions(people, config.secureCookies);
  return makeApp({
    routes: {
      ...{ people, takes, sessions, desk, titles, now },
      addressOf: addressesBehind(config.trustedProxies),
    },
    sync: {
      sessions,
      origins,
      now: () => performance.now(),
      onFault,
      onRefused: (refusal) => tallies.refused(refusal),
      early: new EarlyBytes(),
      epochOf: (board) => people.epoch(board),
      isDraining: () => readiness.isDraining,
      isSetAside: (key) => quarantine.holds(key),
      lease: (key) => rooms.lease(key),
      onEntered: ({ key }) => {
        if (key.document === "talk") desk.announce(key.board).catch(onFault);
      },
    },
    origins,
    log,
    readiness,
    version,
    onRefused: (code) => tallies.refused(code),
    page: config.page,
    isBehindTls: config.secureCookies,
  });
}

/** Both ports; or neither, and what stands behind them is closed too. */
async function openDoors(server: Server, told: MetricsOf, closeBehind: () => Promise<void>) {
  let metrics: MetricsDoor | undefined;
  try {
    metrics = await openMetrics(told);
    return { metrics, port: await listening(server, told.config) };
  } catch (fault) {
    await metrics?.close();
    await closeBehind();
    throw fault;
  }
}

async function listening(server: Server, { host, port }: Config): Promise<number> {
  server.listen(port, host);
  await once(server, "listening");
  const address = server.address();
  return typeof address === "object" && address !== null ? address.port : port;
}

function turn(): Promise<void> {
  return new Promise((resolve) => setImmediate(resolve));
}

function passed(ms: number): Promise<void> {
  return new Promise((resolve) => {
    setTimeout(resolve, ms).unref();
  });
}
