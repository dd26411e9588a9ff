/** Running it: health, readiness, version, metrics, logs, and a stop that moves everybody on. */
import { once } from "node:events";
import { connect } from "node:net";
import { documentNames } from "@halflap/board/documents";
import { apiPath } from "@halflap/wire/api";
import { closeCode } from "@halflap/wire/messages";
import { afterEach, expect, test, vi } from "vitest";
import { makeBand } from "../support/band.ts";
import { Visitor } from "../support/browser-session.ts";
import { documentsOnDisk } from "../support/disk.ts";
import { RawClient } from "../support/raw-client.ts";
import { say } from "../support/say.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";
import { StockClient } from "../support/stock-client.ts";

let server: TestServer | undefined;
afterEach(async () => {
  if (server !== undefined) await removeTestServer(server);
});

async function started(variables: Readonly<Record<string, string>> = {}): Promise<TestServer> {
  server = await startTestServer({ variables });
  return server;
}

test("the server says that it lives, that it is ready, and which version it is", async () => {
  const { address } = await started();
  const texts = await Promise.all(
    ["healthz", "readyz", "version"].map(async (path) => {
      const answer = await fetch(`${address}/${path}`);
      return [answer.status, await answer.text()];
    }),
  );
  expect(texts[0]).toEqual([200, "ok"]);
  expect(texts[1]).toEqual([200, "ready"]);
  expect(JSON.parse(String(texts[2]?.[1]))).toEqual({
    version: expect.stringMatching(/^\d+\.\d+\.\d+$/),
  });
});

test("a full store is not ready, and alive all the same", async () => {
  const { address } = await started({ HALFLAP_STORE_MAX_PAGES: "60" });
  const band = await makeBand(address);
  const writer = await RawClient.synced(band.leader.visitor, band.board, "board");
  for (let i = 0; writer.count("refused") === 0; i += 1) {
    const decided = i + 1;
    say(writer, `${i}`, "x".repeat(40_000));
    await writer.until((frame) => frame.kind === "saved" && frame.decided >= decided);
  }
  const ready = await fetch(`${address}/readyz`);
  expect([ready.status, await ready.text()]).toEqual([503, "unwritable"]);
  expect((await fetch(`${address}/healthz`)).status).toBe(200);
  await writer.close();
});

test("metrics count what happens, and name no board", async () => {
  const { address, logs } = await started({ HALFLAP_METRICS: "0" });
  const metrics = /"metrics":"([^"]+)"/.exec(logs())?.[1] ?? "";
  const band = await makeBand(address);
  const writer = await RawClient.synced(band.leader.visitor, band.board, "board");
  const reader = await RawClient.synced(band.listener.visitor, band.board, "board");
  say(writer, "one", 1);
  await writer.until((frame) => frame.kind === "saved" && frame.decided === 1);
  say(reader, "two", 2);
  await reader.until((frame) => frame.kind === "refused");
  await new Visitor(address).ask("GET", apiPath.board(band.board));
  const text = await (await fetch(metrics)).text();
  expect(text).toMatch(/^halflap_rooms 1$/m);
  expect(text).toMatch(/^halflap_sockets 2$/m);
  expect(text).toMatch(/^halflap_updates_total\{outcome="stored"\} [1-9]/m);
  expect(text).toMatch(/^halflap_append_seconds_count [1-9]/m);
  expect(text).toMatch(/^halflap_refusals_total\{kind="not-yours"\} 1$/m);
  expect(text).toMatch(/^halflap_refusals_total\{kind="not-found"\} 1$/m);
  expect(text).toMatch(/^halflap_store_bytes [1-9]/m);
  expect(text).not.toContain(band.board);
  expect((await fetch(`${address}/metrics`)).headers.get("content-type")).not.toContain("0.0.4");
  await Promise.all([writer.close(), reader.close()]);
});

test("a request that its sender breaks off is counted as that, and is no fault", async () => {
  const { address, logs, logged } = await started({ HALFLAP_METRICS: "0" });
  const metrics = /"metrics":"([^"]+)"/.exec(logs())?.[1] ?? "";
  const { hostname, port } = new URL(address);
  const sender = connect(Number(port), hostname);
  const head = `POST /api/boards HTTP/1.1\r\nHost: ${hostname}:${port}\r\nOrigin: ${address}\r\n`;
  const kind = "Content-Type: application/json\r\nContent-Length: 5000\r\n\r\n{";
  sender.write(`${head}Expect: 100-continue\r\n${kind}`);
  await once(sender, "data"); // it is being read
  sender.destroy();
  await logged(/"event":"request","method":"POST"/);
  expect(logs()).not.toContain("request-failed");
  const told = await (await fetch(metrics)).text();
  expect(told).toContain('halflap_refusals_total{kind="broken-off"} 1');
});

test("after the last page has left, no document is in memory", async () => {
  const { address, logs } = await started({ HALFLAP_METRICS: "0" });
  const metrics = /"metrics":"([^"]+)"/.exec(logs())?.[1] ?? "";
  const counts = async () => {
    const text = await (await fetch(metrics)).text();
    return ["rooms", "sockets"].map((what) => {
      return Number(new RegExp(`^halflap_${what} (\\d+)$`, "m").exec(text)?.[1]);
    });
  };
  const band = await makeBand(address);
  for (let round = 0; round < 3; round += 1) {
    const pages = await Promise.all(
      [band.leader, band.player, band.listener].flatMap(({ visitor }) =>
        documentNames.map((name) => StockClient.of(visitor, band.board, name)),
      ),
    );
    expect(await counts()).toEqual([documentNames.length, pages.length]);
    for (const page of pages) page.close();
    await expect.poll(counts, { timeout: 30_000 }).toEqual([0, 0]);
  }
});

test("without the variable no metrics are told, and logs read well when asked to", async () => {
  const { logs } = await started({ HALFLAP_LOG: "text" });
  expect(logs()).toMatch(/^\S+Z info started address=http:\/\/127\.0\.0\.1:\d+$/m);
  expect(logs()).not.toContain("metrics");
});

test("a stop stores what is on its way, and the stock client comes back by itself", async () => {
  const { address, folder, stop } = await started();
  const band = await makeBand(address);
  const raw = await RawClient.synced(band.player.visitor, band.board, "board");
  const stock = await StockClient.of(band.leader.visitor, band.board, "board");
  stock.doc.getMap("trial").set("before", 1);
  await raw.until(({ kind }) => kind === "update");
  expect(await stop()).toBe(0);
  expect((await raw.closed).code).toBe(closeCode.goingAway);
  const onDisk = () => documentsOnDisk({ folder }, band.board).board.getMap("trial").toJSON();
  expect(onDisk()).toEqual({ before: 1 });
  stock.doc.getMap("trial").set("meanwhile", 2);
  const variables = { HALFLAP_PORT: new URL(address).port };
  server = await startTestServer({ folder, variables });
  const again = await RawClient.synced(band.player.visitor, band.board, "board");
  await again.until(() => again.doc.getMap("trial").get("meanwhile") === 2);
  // It is heard before it is on the disk.
  await vi.waitFor(() => expect(onDisk()).toEqual({ before: 1, meanwhile: 2 }), 15_000);
  stock.close();
  await again.close();
});

test("a second signal ends it at once", async () => {
  const running = await started();
  const band = await makeBand(running.address);
  const deaf = await RawClient.synced(band.player.visitor, band.board, "board");
  deaf.socket.pause(); // it never says goodbye, and the first signal waits for that
  process.kill(running.pid, "SIGTERM");
  await running.logged(/"event":"stopping"/);
  expect(await running.stop()).toBe(1);
  deaf.socket.terminate();
});

test("a stop that waits for a deaf page lets nobody else in", async () => {
  const running = await started();
  const band = await makeBand(running.address);
  const deaf = await RawClient.synced(band.player.visitor, band.board, "board");
  deaf.socket.pause();
  process.kill(running.pid, "SIGTERM");
  await running.logged(/"event":"stopping"/);
  const late = RawClient.open(band.leader.visitor, band.board, "board");
  const { code } = await late.closed;
  expect([1006, closeCode.goingAway]).toContain(code);
  expect(late.count("step-1")).toBe(0);
  expect(await running.ended).toBe(0);
  deaf.socket.terminate();
});
