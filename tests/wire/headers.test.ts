/** Headers of every kind of answer, to the letter: page, files, API, refusals, sound, status. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { apiPath, type BoardId } from "@halflap/wire/api";
import { takeBytesMax } from "@halflap/wire/limits";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Band, makeBand } from "../support/band.ts";
import { smallCopy, Visitor } from "../support/browser-session.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";
import { keepTake, recordingOf, sendBody, takeBody, wavOf } from "../support/take-sender.ts";

let server: TestServer;
let band: Band;
let page: string;

beforeAll(async () => {
  page = mkdtempSync(join(tmpdir(), "halflap-page-"));
  mkdirSync(join(page, "assets"));
  writeFileSync(join(page, "index.html"), "<!doctype html><title>the page</title>");
  writeFileSync(join(page, "assets", "main-abcd1234.js"), "plain();");
  server = await startTestServer({ variables: { HALFLAP_WEB: page } });
  band = await makeBand(server.address);
});

afterAll(async () => {
  await removeTestServer(server);
  rmSync(page, { recursive: true });
});

const policy =
  "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; " +
  "connect-src 'self'; img-src 'self' data: blob:; media-src 'self' blob:; worker-src 'self'; " +
  "font-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'; " +
  "object-src 'none'; frame-ancestors 'none'";

/** What every answer carries, whatever it answers. */
const guards = {
  "content-security-policy": policy,
  "cross-origin-opener-policy": "same-origin",
  "cross-origin-resource-policy": "same-origin",
  "permissions-policy": "camera=(), display-capture=(), geolocation=(), microphone=(self), usb=()",
  "referrer-policy": "no-referrer",
  "x-content-type-options": "nosniff",
};

/** Those that say nothing about safety, and differ from answer to answer. */
const ofTransport = /^(connection|keep-alive|date|transfer-encoding|content-length|last-modified)$/;

function told(headers: Headers): Readonly<Record<string, string>> {
  const safe = [...headers].filter(([name]) => !ofTransport.test(name));
  // Whether a space stands before the charset is a matter of taste.
  return Object.fromEntries(
    safe.map(([name, value]) => [name, name === "content-type" ? value.replace("; ", ";") : value]),
  );
}

const json = { "content-type": "application/json" };
const words = { "content-type": "text/plain;charset=UTF-8" };
const never = { "cache-control": "no-store" };
const asked = { "cache-control": "no-cache" };
const html = { "content-type": "text/html;charset=utf-8" };
const nowhere = "A".repeat(22) as BoardId;

test.each<[path: string, status: number, own: Readonly<Record<string, string>>]>([
  ["/", 200, { ...html, ...asked }],
  ["/board/abc", 200, { ...html, ...asked }],
  ["/%ff%fe", 200, { ...html, ...asked }],
  ["/missing.js", 404, { ...words, ...asked }],
  [
    "/assets/main-abcd1234.js",
    200,
    {
      "content-type": "text/javascript;charset=utf-8",
      "cache-control": "public, max-age=31536000, immutable",
    },
  ],
  ["/api/boards", 200, { ...json, ...never }],
  [apiPath.board(nowhere), 404, { ...json, ...never }],
  ["/api/nothing", 404, { ...json, ...never }],
  ["/healthz", 200, words],
  ["/readyz", 200, { ...words, ...never }],
  ["/version", 200, json],
])("GET %s answers %i with exactly its headers", async (path, status, own) => {
  const answer = await new Visitor(server.address).ask("GET", path);
  expect(answer.status).toBe(status);
  expect(told(answer.headers)).toEqual({ ...guards, ...own });
});

test("refused writes carry them too", async () => {
  const stranger = new Visitor(server.address);
  const body = { name: "Ada", copy: smallCopy() };
  const answers = [
    await stranger.ask("POST", apiPath.boards, body, { origin: "https://evil.example" }),
    await stranger.ask("POST", apiPath.boards, { name: "" }),
    await sendBody(band.leader.visitor, band.board, takeBody(wavOf(takeBytesMax + 1))),
    await stranger.ask("POST", apiPath.join, { secret: "A".repeat(43), name: "Ben" }),
    await stranger.ask("DELETE", apiPath.board(nowhere)),
  ];
  expect(answers.map(({ status }) => status)).toEqual([403, 400, 413, 404, 404]);
  for (const { headers, status } of answers) {
    const cookie = headers.get("set-cookie");
    // Whoever redeems a link is given a session first; it opens nothing.
    if (status !== 404) expect(cookie).toBeNull();
    const given = cookie === null ? {} : { "set-cookie": cookie };
    expect(told(headers)).toEqual({ ...guards, ...json, ...never, ...given });
  }
});

test("a new session is told once, in a cookie that scripts and other sites can't use", async () => {
  const body = { name: "Ada", copy: smallCopy() };
  const { headers } = await new Visitor(server.address).ask("POST", apiPath.boards, body);
  expect(headers.getSetCookie()).toEqual([
    expect.stringMatching(
      /^halflap=[A-Za-z0-9_-]{43}; Max-Age=34560000; Path=\/; HttpOnly; SameSite=Lax$/,
    ),
  ]);
});

test("a take's sound: whole, known, in part, beyond its end, unknown", async () => {
  const { leader, board } = band;
  const take = await keepTake(leader.visitor, board);
  const sound = {
    ...guards,
    "accept-ranges": "bytes",
    "cache-control": "private, max-age=31536000, immutable",
    "content-disposition": `attachment; filename="take-${take.id}.wav"`,
    "content-type": "audio/wav",
    etag: `"${take.id}"`,
  };
  const at = (headers: Record<string, string>) => recordingOf(leader.visitor, board, take, headers);
  const [whole, known, part, beyond] = [
    await at({}),
    await at({ "if-none-match": `"${take.id}"` }),
    await at({ range: "bytes=0-9" }),
    await at({ range: "bytes=9000-" }),
  ];
  expect([whole.status, told(whole.headers)]).toEqual([200, sound]);
  expect([known.status, told(known.headers)]).toEqual([304, sound]);
  const range = { "content-range": "bytes 0-9/400" };
  expect([part.status, told(part.headers)]).toEqual([206, { ...sound, ...range }]);
  expect([beyond.status, told(beyond.headers)]).toEqual([
    416,
    { ...guards, ...json, ...never, "content-range": "bytes */400" },
  ]);
  const stranger = await recordingOf(new Visitor(server.address), board, take);
  expect([stranger.status, told(stranger.headers)]).toEqual([
    404,
    { ...guards, ...json, ...never },
  ]);
});

test("a page elsewhere is told no address that it may call, also when it asks first", async () => {
  const answer = await fetch(`${server.address}${apiPath.boards}`, {
    method: "OPTIONS",
    headers: {
      origin: "https://evil.example",
      "access-control-request-method": "POST",
      "access-control-request-headers": "content-type",
    },
  });
  expect([answer.status, told(answer.headers)]).toEqual([403, { ...guards, ...json, ...never }]);
});

test("behind TLS every answer also says that the site is reached by TLS alone", async () => {
  const origin = "https://board.example";
  const secure = await startTestServer({ variables: { HALFLAP_ORIGIN: origin } });
  const visitor = new Visitor(secure.address);
  const transport = { "strict-transport-security": "max-age=31536000" };
  const { headers } = await visitor.ask("GET", "/api/boards");
  expect(told(headers)).toEqual({ ...guards, ...json, ...never, ...transport });
  const body = { name: "Ada", copy: smallCopy() };
  const made = await visitor.ask("POST", apiPath.boards, body, { origin });
  expect(made.headers.getSetCookie()).toEqual([
    expect.stringMatching(
      /^__Host-halflap=[\w-]{43}; Max-Age=34560000; Path=\/; HttpOnly; Secure; SameSite=Lax$/,
    ),
  ]);
  await removeTestServer(secure);
});
