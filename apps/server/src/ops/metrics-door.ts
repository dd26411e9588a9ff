/**
 * The metrics' own port: closed unless named, and never the one that the page is on, so that no
 * proxy shows them by mistake.
 */
import { once } from "node:events";
import { createServer } from "node:http";
import { exposition, expositionType, type Family } from "./exposition.ts";

export type MetricsAddress = { readonly host: string; readonly port: number };

export type MetricsDoor = {
  /** http://127.0.0.1:9464/metrics */
  readonly address: string;
  close(): Promise<void>;
};

/** Answers GET /metrics and nothing else. Rejects when the port is taken. */
export async function openMetricsDoor(
  { host, port }: MetricsAddress,
  families: () => readonly Family[],
): Promise<MetricsDoor> {
  const server = createServer((request, answer) => {
    const isWanted = request.method === "GET" && request.url === "/metrics";
    answer.writeHead(isWanted ? 200 : 404, { "Content-Type": expositionType });
    answer.end(isWanted ? exposition(families()) : "There is only /metrics here.\n");
  });
  server.listen(port, host);
  await once(server, "listening");
  const bound = server.address();
  const given = typeof bound === "object" && bound !== null ? bound.port : port;
  const shown = host.includes(":") ? `[${host}]` : host;
  return {
    address: `http://${shown}:${given}/metrics`,
    async close() {
      const closed = once(server, "close");
      server.close();
      server.closeAllConnections();
      await closed;
    },
  };
}
