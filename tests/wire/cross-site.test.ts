/** W1, writes from elsewhere: every route that changes anything, with every way to come wrongly. */
import { readdirSync, readFileSync } from "node:fs";
import { takeId } from "@halflap/board/ids";
import { apiPath, type LinkId } from "@halflap/wire/api";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Band, makeBand } from "../support/band.ts";
import { refusalOf, smallCopy } from "../support/browser-session.ts";
import { everythingOnDisk } from "../support/disk.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
let band: Band;

beforeAll(async () => {
  server = await startTestServer();
  band = await makeBand(server.address);
});

afterAll(() => removeTestServer(server));

type Write = readonly [
  method: "POST" | "DELETE",
  route: string,
  path: () => string,
  body?: unknown,
];

const link = { role: "player", days: 1, uses: 1 };
const noLink = "A".repeat(12) as LinkId;

/** The last one ends the board, so it stands last. */
const writes: readonly Write[] = [
  ["POST", "/boards", () => apiPath.boards, { name: "Ada", copy: smallCopy() }],
  ["POST", "/join", () => apiPath.join, { secret: "A".repeat(43), name: "Zoe" }],
  ["POST", "/boards/:board/links", () => apiPath.links(band.board), link],
  ["DELETE", "/boards/:board/links/:link", () => apiPath.link(band.board, noLink)],
  ["POST", "/boards/:board/lanes/:lane/claim", () => apiPath.lane(band.board, "upper", "claim")],
  [
    "POST",
    "/boards/:board/lanes/:lane/hand-over",
    () => apiPath.lane(band.board, "upper", "hand-over"),
    { to: null },
  ],
  [
    "POST",
    "/boards/:board/lanes/:lane/release",
    () => apiPath.lane(band.board, "upper", "release"),
  ],
  ["POST", "/boards/:board/name", () => apiPath.name(band.board), { name: "Zoe" }],
  ["POST", "/boards/:board/takes", () => apiPath.takes(band.board), "no take"],
  ["DELETE", "/boards/:board/takes/:take", () => apiPath.take(band.board, takeId("A".repeat(22)))],
  ["POST", "/boards/:board/leader", () => apiPath.leader(band.board), { to: "nobody" }],
  [
    "DELETE",
    "/boards/:board/members/:member",
    () => apiPath.member(band.board, band.listener.me.id),
  ],
  ["DELETE", "/boards/:board", () => apiPath.board(band.board)],
];

/** What a browser sends for a page elsewhere, and what comes without a browser. */
const wrongly = (own: string): readonly Readonly<Record<string, string>>[] => [
  {},
  { origin: "null" },
  { origin: "https://evil.example" },
  { origin: own.replace("http:", "https:") },
  { origin: own.replace(/:\d+$/, ":1") },
  { origin: `${own}.evil.example` },
  { origin: `${own}/` },
  { origin: own.toUpperCase() },
  { origin: `${own}, ${own}` },
  { origin: "http://evil.example", host: "evil.example" },
  { origin: own, "sec-fetch-site": "cross-site" },
  { origin: own, "sec-fetch-site": "same-site" },
  { origin: own, "sec-fetch-site": "none" },
  { referer: `${own}/`, "sec-fetch-site": "same-origin" },
];

test("every route that changes anything is in the table", () => {
  const folder = new URL("../../apps/server/src/http/", import.meta.url);
  const names = readdirSync(folder).filter((name) => !name.endsWith(".test.ts"));
  const sources = names.map((name) => readFileSync(new URL(name, folder), "utf8"));
  const found = sources.flatMap((text) =>
    [...text.matchAll(/\.(post|delete|put|patch)\(\s*"([^"]+)"/g)].map(
      ([, method = "", route = ""]) => `${method.toUpperCase()} ${route}`,
    ),
  );
  const listed = writes.map(([method, route]) => `${method} ${route}`);
  expect(found.filter((route) => route.includes("/")).sort()).toEqual([...listed].sort());
});

const named = writes.map((write) => ({ title: `${write[0]} ${write[1]}`, write }));

test.each(named)(
  "$title from elsewhere is refused and changes nothing",
  async ({ write: [method, , path, body] }) => {
    const before = everythingOnDisk(server);
    for (const headers of wrongly(server.address)) {
      const answer = await band.leader.visitor.ask(method, path(), body, headers);
      expect([answer.status, refusalOf(answer)], JSON.stringify(headers)).toEqual([
        403,
        "wrong-origin",
      ]);
      expect(answer.headers.get("set-cookie")).toBeNull();
    }
    expect(everythingOnDisk(server)).toBe(before);
  },
);

test("the same from the page itself is heard, with and without what new browsers add", async () => {
  const ways: readonly Readonly<Record<string, string>>[] = [
    { "sec-fetch-site": "same-origin" },
    {},
  ];
  for (const more of ways) {
    for (const [method, , path, body] of writes.slice(0, -1)) {
      const headers = { origin: server.address, ...more };
      const answer = await band.leader.visitor.ask(method, path(), body, headers);
      expect(refusalOf(answer)).not.toBe("wrong-origin");
    }
  }
});
