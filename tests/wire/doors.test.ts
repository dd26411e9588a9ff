/**
 * The doors: origins, cookies, headers, what strangers see, the page's files, health, and a
 * graceful stop.
 */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { apiPath, type BoardId } from "@halflap/wire/api";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Band, makeBand } from "../support/band.ts";
import { refusalOf, smallCopy, Visitor } from "../support/browser-session.ts";
import { RawClient } from "../support/raw-client.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
let band: Band;
let page: string;

beforeAll(async () => {
  page = mkdtempSync(join(tmpdir(), "halflap-page-"));
  mkdirSync(join(page, "assets"));
  writeFileSync(join(page, "index.html"), "<!doctype html><title>the page</title>");
  writeFileSync(join(page, "assets", "main-abcd1234.js"), "plain();");
  writeFileSync(join(page, "assets", "main-abcd1234.js.gz"), gzipSync("packed();"));
  writeFileSync(join(page, "..", "halflap-outside.txt"), "outside");
  server = await startTestServer({ variables: { HALFLAP_WEB: page } });
  band = await makeBand(server.address);
});

afterAll(async () => {
  await removeTestServer(server);
  rmSync(page, { recursive: true });
  rmSync(join(page, "..", "halflap-outside.txt"));
});

test("a socket from another page or from nowhere is closed unheard", async () => {
  const elsewhere: readonly Record<string, string>[] = [
    { origin: "http://evil.example" },
    { origin: "http://evil.example", host: "evil.example" }, // a name made to lead here
    {},
  ];
  for (const headers of elsewhere) {
    const client = RawClient.open(band.leader.visitor, band.board, "board", headers);
    expect((await client.closed).code).toBe(4418);
    expect(client.heard).toEqual([]);
  }
});

test("a phone that opens the page under the server's number in the network is let in", async () => {
  const headers = { origin: "http://192.168.1.20:4321", host: "192.168.1.20:4321" };
  const client = RawClient.open(band.leader.visitor, band.board, "board", headers);
  await client.until(({ kind }) => kind === "step-1");
  await client.close();
});

test("strangers' sockets, and those to no document, are closed for good", async () => {
  const stranger = new Visitor(server.address);
  await stranger.makeBoard();
  for (const visitor of [stranger, new Visitor(server.address)]) {
    const client = RawClient.open(visitor, band.board, "board");
    expect((await client.closed).code).toBe(4401);
    expect(client.heard).toEqual([]);
  }
  const nowhere = RawClient.open(band.leader.visitor, band.board, "diary");
  expect((await nowhere.closed).code).toBe(4404);
});

test("an unknown board and somebody else's answer alike", async () => {
  const stranger = new Visitor(server.address);
  await stranger.makeBoard();
  const unknown = "A".repeat(22) as BoardId;
  const paths = [apiPath.board, apiPath.links, apiPath.name, apiPath.leader];
  for (const [i, path] of paths.entries()) {
    const method = i < 2 ? "GET" : "POST";
    const [theirs, none] = [
      await stranger.ask(method, path(band.board), i < 2 ? undefined : {}),
      await stranger.ask(method, path(unknown), i < 2 ? undefined : {}),
    ];
    expect(theirs.status).toBe(404);
    expect(none).toMatchObject({ status: 404, body: theirs.body });
  }
});

test("the session cookie can't be read by scripts nor sent from other sites", async () => {
  const answer = await new Visitor(server.address).ask("POST", apiPath.boards, {
    name: "Ada",
    copy: smallCopy(),
  });
  const cookie = answer.headers.get("set-cookie") ?? "";
  expect(cookie).toMatch(/^halflap=[A-Za-z0-9_-]{43};/);
  expect(cookie).toContain("HttpOnly");
  expect(cookie).toContain("SameSite=Lax");
  expect(cookie).toContain("Path=/");
  expect(cookie).not.toContain("Secure");
});

test("behind TLS the cookie is secure and bound to the host, and the site says so", async () => {
  const origin = "https://board.example";
  const secure = await startTestServer({ variables: { HALFLAP_ORIGIN: origin } });
  const body = { name: "Ada", copy: smallCopy() };
  const answer = await new Visitor(secure.address).ask("POST", apiPath.boards, body, { origin });
  expect(answer.headers.get("set-cookie")).toMatch(/^__Host-halflap=.*; Path=\/; .*Secure/);
  expect(answer.headers.get("strict-transport-security")).toContain("max-age=");
  await removeTestServer(secure);
});

test("the page's addresses lead to it, hashed files are kept, others missing", async () => {
  const visitor = new Visitor(server.address);
  const at = (path: string, headers = {}) => visitor.ask("GET", path, undefined, headers);
  for (const path of ["/", "/board/abc", "/join"]) {
    const answer = await at(path);
    expect(answer.body).toContain("the page");
    expect(answer.headers.get("cache-control")).toBe("no-cache");
  }
  const asset = "/assets/main-abcd1234.js";
  const plain = await at(asset, { "accept-encoding": "identity" });
  expect(plain.body).toBe("plain();");
  expect(plain.headers.get("cache-control")).toContain("immutable");
  expect(plain.headers.get("content-type")).toContain("javascript");
  expect((await at(asset, { "accept-encoding": "gzip" })).body).toBe("packed();");
  expect((await at("/assets/gone-abcd1234.js")).status).toBe(404);
  expect((await at("/%2e%2e/halflap-outside.txt")).body).not.toContain("outside");
});

test("an unknown address of the API is a refusal, not the page", async () => {
  const answer = await new Visitor(server.address).ask("GET", "/api/nothing");
  expect([answer.status, refusalOf(answer)]).toEqual([404, "not-found"]);
});

test.each([
  ["no JSON", "bad-body", "text"],
  ["a list", "bad-body", []],
  ["an unknown field", "bad-body", { name: "Ada", copy: {}, more: 1 }],
  ["a broken copy", "bad-body", { name: "Ada", copy: { format: "halflap-board" } }],
  ["more than 4 MiB", "too-large", { name: "x".repeat(4 * 1024 * 1024) }],
])("a board from %s is refused as %s", async (_what, code, body) => {
  const answer = await new Visitor(server.address).ask("POST", apiPath.boards, body);
  expect(refusalOf(answer)).toBe(code);
});

test("healthz answers without the store", async () => {
  expect(await new Visitor(server.address).ask("GET", "/healthz")).toMatchObject({
    status: 200,
    body: "ok",
  });
});

test("a bad variable stops the start at once and is named", async () => {
  const start = startTestServer({ variables: { HALFLAP_PORT: "many" } });
  await expect(start).rejects.toThrow("HALFLAP_PORT");
});

test("SIGTERM says goodbye to sockets, which may come again, and ends with 0", async () => {
  const other = await startTestServer();
  const { board, leader } = await makeBand(other.address);
  const client = await RawClient.synced(leader.visitor, board, "board");
  const code = other.stop();
  expect((await client.closed).code).toBe(1001);
  expect(await code).toBe(0);
  await removeTestServer(other);
});
