/** W1: who may ask for what, each route with each role. */
import { apiPath, type LinkId } from "@halflap/wire/api";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Band, makeBand } from "../support/band.ts";
import { refusalOf, smallCopy, Visitor } from "../support/browser-session.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
let band: Band;

beforeAll(async () => {
  server = await startTestServer();
  band = await makeBand(server.address);
});

afterAll(() => removeTestServer(server));

type Row = readonly [
  what: string,
  method: "GET" | "POST" | "DELETE",
  path: () => string,
  body: unknown,
  /** Code of the refusal for leader, player, listener, stranger; undefined = done. */
  ...answers: readonly [
    leader: string | undefined,
    player: string | undefined,
    listener: string | undefined,
    stranger: string | undefined,
  ],
];

const ok = undefined;
const no = "not-allowed";
const none = "not-found";
const noLink = "A".repeat(12) as LinkId;
const link = { role: "listener", days: 1, uses: 1 };

const rows: readonly Row[] = [
  ["list boards", "GET", () => apiPath.boards, ok, ok, ok, ok, ok],
  ["read a board", "GET", () => apiPath.board(band.board), ok, ok, ok, ok, none],
  ["invite", "POST", () => apiPath.links(band.board), link, ok, no, no, none],
  [
    "add a device",
    "POST",
    () => apiPath.links(band.board),
    { ...link, role: "self" },
    ok,
    ok,
    ok,
    none,
  ],
  ["see links", "GET", () => apiPath.links(band.board), ok, ok, no, no, none],
  ["revoke", "DELETE", () => apiPath.link(band.board, noLink), ok, "link-unknown", no, no, none],
  ["rename", "POST", () => apiPath.name(band.board), { name: "Same" }, ok, ok, ok, none],
  [
    "claim",
    "POST",
    () => apiPath.lane(band.board, "upper", "claim"),
    ok,
    ok,
    "lane-taken",
    no,
    none,
  ],
  [
    ...(["hand over", "POST", () => apiPath.lane(band.board, "upper", "hand-over")] as const),
    ...([{ to: null }, ok, "lane-not-yours", no, none] as const),
  ],
  [
    ...(["release", "POST", () => apiPath.lane(band.board, "lower", "release")] as const),
    ...([ok, "lane-not-yours", "lane-not-yours", no, none] as const),
  ],
  [
    ...(["remove", "DELETE", () => apiPath.member(band.board, band.leader.me.id)] as const),
    ...([ok, no, no, no, none] as const),
  ],
  [
    "hand the lead",
    "POST",
    () => apiPath.leader(band.board),
    { to: "x" },
    "member-unknown",
    no,
    no,
    none,
  ],
  ["delete", "DELETE", () => apiPath.board(band.board), ok, ok, no, no, none],
];

test.each(rows)("%s", async (_what, method, path, body, ...expected) => {
  const stranger = new Visitor(server.address);
  await stranger.makeBoard("Zoe", smallCopy());
  const { leader, player, listener } = band;
  const answers: unknown[] = [];
  // The leader asks last where asking ends the board, and first where the lane has to be taken.
  const order = method === "DELETE" ? [3, 2, 1, 0] : [0, 1, 2, 3];
  const visitors = [leader.visitor, player.visitor, listener.visitor, stranger];
  for (const i of order) {
    const answer = await visitors[i]?.ask(method, path(), body);
    answers[i] = answer === undefined ? "no visitor" : refusalOf(answer);
  }
  expect(answers).toEqual(expected);
});
