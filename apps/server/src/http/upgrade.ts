/**
 * Upgrades to WebSockets: asked of the application like any request, then let go of. What a request
 * brings weighs more than the socket that it becomes, so nothing of it may stay.
 */
import { type IncomingMessage, type Server, STATUS_CODES } from "node:http";
import type { Duplex } from "node:stream";
import type { Context } from "hono";
import type { WebSocket, WebSocketServer } from "ws";
import type { Caller } from "../sync/socket-line.ts";

/** What is done with a socket once it is open. */
export type Welcome = (caller: Caller) => void;

/** Beside a request that asks for a socket: where a route leaves what to do with it. */
type Threshold = { readonly incoming: IncomingMessage; welcome: Welcome | undefined };

/** Has a socket opened and welcomed, where a request asks for one; else answers that it must. */
export function opening(c: Context, welcome: Welcome): Response {
  const threshold = c.env as Partial<Threshold> | undefined;
  if (threshold === undefined || !("welcome" in threshold)) {
    return new Response("Here is a WebSocket.", { status: 426, headers: { Upgrade: "websocket" } });
  }
  threshold.welcome = welcome;
  return new Response();
}

/** Where sockets are; an upgrade to anywhere else reaches no route. */
const socketsPath = "/sync/";
/** How long a refusal may take on its way, in ms. */
const refusedMs = 5_000;

export type UpgradePorts = {
  readonly server: Server;
  readonly sockets: WebSocketServer;
  fetch(request: Request, threshold: object): Response | Promise<Response>;
};

/** Hears upgrades; what no route welcomes gets the route's answer and no socket. */
export function hearUpgrades({ server, sockets, fetch }: UpgradePorts): void {
  const open = async (request: IncomingMessage, connection: Duplex, head: Buffer) => {
    const threshold: Threshold = { incoming: request, welcome: undefined };
    const response = await answerTo(request, threshold, fetch);
    response.body?.cancel().catch(ignore); // an open file would stay open: nobody reads it
    if (connection.destroyed) return;
    const { welcome } = threshold;
    if (welcome === undefined) {
      refuse(connection, response);
      return;
    }
    connection.off("error", ignore);
    sockets.handleUpgrade(request, connection, head, (socket: WebSocket) => {
      sockets.emit("connection", socket, request);
      welcome({ socket, connection });
    });
  };
  server.on("upgrade", (request, connection, head) => {
    connection.on("error", ignore); // until it has an owner that hears them
    void open(request, connection, head);
  });
}

async function answerTo(
  request: IncomingMessage,
  threshold: Threshold,
  fetch: UpgradePorts["fetch"],
): Promise<Response> {
  const { url = "/", headers, rawHeaders } = request;
  const address = `http://${headers.host ?? "localhost"}${url}`;
  if (headers.upgrade?.toLowerCase() !== "websocket" || !url.startsWith("/")) return refusal(400);
  try {
    if (!new URL(address).pathname.startsWith(socketsPath)) return refusal(404);
    const pairs = rawHeaders.flatMap((name, i): [string, string][] =>
      i % 2 === 0 ? [[name, rawHeaders[i + 1] ?? ""]] : [],
    );
    return await fetch(new Request(address, { headers: pairs }), threshold);
  } catch {
    return refusal(400); // an address or a header that can't be
  }
}

function refusal(status: number): Response {
  return new Response(null, { status });
}

/** An upgraded connection is nobody's but ours: the HTTP server neither times nor closes it. */
function refuse(connection: Duplex, { status, headers }: Response): void {
  const told = [...headers].map(([name, value]) => `${name}: ${value}\r\n`).join("");
  const words = STATUS_CODES[status] ?? "";
  const length = "Connection: close\r\nContent-Length: 0\r\n";
  const end = () => void connection.destroy();
  const patience = setTimeout(end, refusedMs);
  connection.once("close", () => clearTimeout(patience));
  connection.end(`HTTP/1.1 ${status} ${words}\r\n${length}${told}\r\n`, end);
}

function ignore(): void {
  // the other end is gone, and nobody waits for it
}
