/** The whole HTTP face: headers and faults for all, the API, the sockets' door, and the page. */
import type { RefusalCode } from "@halflap/wire/api";
import type { HttpBindings } from "@hono/node-server";
import { type Context, Hono } from "hono";
import type { Log } from "../ops/log.ts";
import type { Readiness } from "../ops/readiness.ts";
import { statusRoutes } from "../ops/status-routes.ts";
import { StoreAway, StoreFull } from "../store/log-port.ts";
import { Refused, refusalAnswer } from "./answers.ts";
import { boardRoutes } from "./boards.ts";
import { changeRates } from "./change-rates.ts";
import { secured } from "./headers.ts";
import { laneRoutes } from "./lanes.ts";
import { linkRoutes } from "./links.ts";
import { memberRoutes } from "./members.ts";
import { type Origins, writesFrom } from "./origin.ts";
import { pageRoutes } from "./page.ts";
import type { RoutePorts } from "./ports.ts";
import { limited } from "./rate.ts";
import { logged } from "./request-log.ts";
import { type SyncPorts, syncRoutes } from "./sync.ts";
import { takeRoutes } from "./takes.ts";

export type AppPorts = {
  readonly routes: RoutePorts;
  readonly sync: SyncPorts;
  readonly origins: Origins;
  readonly log: Log;
  readonly readiness: Readiness;
  readonly version: string;
  /** Told the code of every request that was refused, and of each that its sender broke off. */
  onRefused(code: RefusalCode | "broken-off"): void;
  readonly page: string;
  readonly isBehindTls: boolean;
};

/** A room behind one address stays far below both; a flood ends here, before the store. */
const askingRate = { perMinute: 6_000, burst: 3_000 };
/** A page opens four sockets; a server that begins anew has all of a room's at once. */
const openingRate = { perMinute: 6_000, burst: 3_000 };

/** The application: a function from request to answer. */
export function makeApp(ports: AppPorts): Hono {
  const app = new Hono();
  app.use(secured(ports.isBehindTls));
  app.onError((fault, c) => {
    if (isBrokenOff(fault, c)) {
      ports.onRefused("broken-off");
      return refusalAnswer(new Refused("bad-body", "The request broke off.")); // nobody hears it
    }
    const refused = refusalIn(fault, ports.log);
    ports.onRefused(refused.code);
    return refusalAnswer(refused);
  });
  app.route("/", statusRoutes(ports.readiness, ports.version));
  app.route("/api", api(ports));
  app.use("/sync/*", limited(openingRate, ports.routes));
  app.route("/", syncRoutes(ports.sync));
  app.route("/", pageRoutes(ports.page));
  return app;
}

function api({ routes, origins, log }: AppPorts): Hono {
  const api = new Hono();
  api.use(logged(log, routes.now));
  api.use(async (c, next) => {
    await next();
    if (!c.res.headers.has("Cache-Control")) c.header("Cache-Control", "no-store");
  });
  api.use(limited(askingRate, routes));
  api.use(writesFrom(origins));
  api.route("/", boardRoutes(routes));
  const count = changeRates(routes.now);
  api.route("/", memberRoutes(routes, count));
  api.route("/", laneRoutes(routes, count));
  api.route("/", linkRoutes(routes));
  api.route("/", takeRoutes(routes));
  api.all("*", () => {
    throw new Refused("not-found", "There is nothing at this address.");
  });
  return api;
}

/** Whether its own body is what failed: whoever sent it left before its end. */
function isBrokenOff(fault: Error, c: Context): boolean {
  const { incoming }: Partial<HttpBindings> = c.env;
  return incoming?.errored === fault;
}

function refusalIn(fault: Error, log: Log): Refused {
  if (fault instanceof Refused) return fault;
  const { event, refusal } = told(fault);
  log.fault(event, fault);
  return refusal;
}

function told(fault: Error): { readonly event: string; readonly refusal: Refused } {
  if (fault instanceof StoreFull) {
    const words = "The server's disk is full; nothing was stored. Try again later.";
    return { event: "store-full", refusal: new Refused("store-full", words) };
  }
  if (fault instanceof StoreAway) {
    const words = "The server can't reach its store just now; look again in a moment.";
    return { event: "store-away", refusal: new Refused("failed", words) };
  }
  const words = "That went wrong on the server; try again.";
  return { event: "request-failed", refusal: new Refused("failed", words) };
}
