/** The table for requests: every route, and where it matters, every way to ask for it. */
import { apiPath, type BoardsAnswer, type LinkId } from "@halflap/wire/api";
import type { Action } from "@halflap/wire/permissions";
import { refusalOf, smallCopy } from "../browser-session.ts";
import { sendBody, takeBody, wavOf } from "../take-sender.ts";
import { type Cell, cellsOf, members, onBoard, type Row } from "./row.ts";
import type { Knocker, Scene } from "./scene.ts";

type Method = "GET" | "POST" | "DELETE";
type Target = readonly [path: string, body?: unknown];

const ok = "done";
const none = "not-found";
const no = "not-allowed";
const all = cellsOf([ok, ok, ok, ok, ok, ok, ok]);
const everyMember = members(none, ok, ok, ok, ok);
const players = members(none, no, ok, ok, ok);
const leaderAlone = members(none, no, no, no, ok);

/** Whom a lane or a take of one's own does not set apart from others of the same role. */
const landless: readonly Knocker[] = ["listener", "player", "leader"];
const board = "/api/boards/:board";
const lane = `${board}/lanes/:lane`;

const boards: readonly Row[] = [
  row("a page of the page's own", "GET /*", all, () => ["/somewhere"]),
  row("any other method at the page", "ALL /*", cellsOf(sevenTimes("404")), () => ["/"], "POST"),
  row("an address of no route", "ALL /api/*", cellsOf(sevenTimes(none)), () => ["/api/none"]),
  row(
    "an address beneath the doors that is none",
    "ALL /sync/*",
    cellsOf(sevenTimes("404")),
    () => ["/sync/attic"],
    "POST",
  ),
  row("life", "GET /healthz", all, () => ["/healthz"]),
  row("readiness", "GET /readyz", all, () => ["/readyz"]),
  row("the version", "GET /version", all, () => ["/version"]),
  {
    name: "finding the board among one's own",
    at: "GET /api/boards",
    cells: members("not listed", "listed", "listed", "listed", "listed"),
    act: async (scene, who) => {
      const answer = await scene.people[who].visitor.ask("GET", apiPath.boards);
      const listed = (answer.body as BoardsAnswer).boards.some(({ id }) => id === scene.board);
      return listed ? "listed" : "not listed";
    },
  },
  row("a new board", "POST /api/boards", all, () => [
    apiPath.boards,
    { name: "Max", copy: smallCopy() },
  ]),
  by("read", onBoard, row("the board", `GET ${board}`, everyMember, ofBoard())),
  by("delete-board", onBoard, row("its end", `DELETE ${board}`, leaderAlone, ofBoard())),
];

const people: readonly Row[] = [
  by(
    "rename-self",
    onBoard,
    row("one's own name", `POST ${board}/name`, everyMember, ofBoard("/name", { name: "New" })),
  ),
  by(
    "remove-member",
    onBoard,
    row("removing a player", `DELETE ${board}/members/:member`, leaderAlone, (scene) => [
      apiPath.member(scene.board, scene.people.laned.me.id),
    ]),
  ),
  row(
    "removing oneself",
    `DELETE ${board}/members/:member`,
    members(none, no, no, no, no),
    ({ board, people }, who) => [apiPath.member(board, people[who].me.id)],
  ),
  by(
    "hand-over-leader",
    onBoard,
    row("the lead to a player", `POST ${board}/leader`, leaderAlone, toMember("player", "/leader")),
  ),
  row(
    "the lead to a listener",
    `POST ${board}/leader`,
    members(none, no, no, no, no),
    toMember("listener", "/leader"),
  ),
  row(
    "the lead to a removed member",
    `POST ${board}/leader`,
    members(none, no, no, no, "member-unknown"),
    toMember("removed", "/leader"),
  ),
];

const lanes: readonly Row[] = [
  by(
    "claim-lane",
    landless,
    row("a free lane", `POST ${lane}/claim`, members(none, no, ok, no, ok), ofLane("lower/claim")),
  ),
  row(
    "a lane that somebody has",
    `POST ${lane}/claim`,
    members(none, no, "lane-taken", ok, "lane-taken"),
    ofLane("upper/claim"),
  ),
  by(
    "release-lane",
    ["listener", "laned"],
    row(
      "giving a lane up",
      `POST ${lane}/release`,
      members(none, no, "lane-not-yours", ok, "lane-not-yours"),
      ofLane("upper/release"),
    ),
  ),
  by(
    "hand-over-lane",
    ["listener", "laned"],
    row(
      "a lane to a player",
      `POST ${lane}/hand-over`,
      members(none, no, "lane-not-yours", ok, ok),
      toMember("player", "/lanes/upper/hand-over"),
    ),
  ),
  by(
    "reassign-lane",
    landless,
    row(
      "taking a lane from its owner",
      `POST ${lane}/hand-over`,
      members(none, no, "lane-not-yours", ok, ok),
      ofLane("upper/hand-over", { to: null }),
    ),
  ),
  row(
    "a lane to a listener",
    `POST ${lane}/hand-over`,
    members(none, no, "lane-not-yours", no, no),
    toMember("listener", "/lanes/upper/hand-over"),
  ),
];

const links: readonly Row[] = [
  ...(["player", "listener"] as const).map((role) =>
    by(
      "invite",
      onBoard,
      row(`a link for a ${role}`, `POST ${board}/links`, leaderAlone, link(role)),
    ),
  ),
  by(
    "add-own-device",
    onBoard,
    row("a link for a device of one's own", `POST ${board}/links`, everyMember, link("self")),
  ),
  by("see-links", onBoard, row("the links", `GET ${board}/links`, leaderAlone, ofBoard("/links"))),
  by(
    "revoke-link",
    onBoard,
    row("taking a link back", `DELETE ${board}/links/:link`, leaderAlone, (scene) => [
      apiPath.link(scene.board, scene.link.id),
    ]),
  ),
  row(
    "taking a link back that is none",
    `DELETE ${board}/links/:link`,
    members(none, no, no, no, "link-unknown"),
    (scene) => [apiPath.link(scene.board, "A".repeat(12) as LinkId)],
  ),
  row("joining with a link", "POST /api/join", all, ({ link: { secret } }) => [
    apiPath.join,
    { secret, name: "Kim" },
  ]),
  row("joining with a guess", "POST /api/join", cellsOf(sevenTimes("link-unknown")), () => [
    apiPath.join,
    { secret: "A".repeat(43), name: "Kim" },
  ]),
];

const takes: readonly Row[] = [
  by("hear-take", onBoard, row("the takes", `GET ${board}/takes`, everyMember, ofBoard("/takes"))),
  by(
    "hear-take",
    onBoard,
    row("a recording", `GET ${board}/takes/:take`, everyMember, ({ board, takes }) => [
      apiPath.take(board, takes.laned.id),
    ]),
  ),
  by("record-take", onBoard, {
    name: "a new take",
    at: `POST ${board}/takes`,
    cells: players,
    act: async ({ board, people }, who) => {
      const answer = await sendBody(people[who].visitor, board, takeBody(wavOf(400)));
      return refusalOf(answer) ?? ok;
    },
  }),
  by(
    "remove-own-take",
    onBoard,
    row("a take of one's own away", `DELETE ${board}/takes/:take`, players, (scene, who) => [
      apiPath.take(scene.board, scene.takes[who].id),
    ]),
  ),
  by(
    "remove-any-take",
    landless,
    row(
      "another's take away",
      `DELETE ${board}/takes/:take`,
      members(none, no, no, ok, ok),
      (scene) => [apiPath.take(scene.board, scene.takes.laned.id)],
    ),
  ),
];

/** Every request, with what comes of it for each of the seven. */
export const httpRows: readonly Row[] = [...boards, ...people, ...lanes, ...links, ...takes];

function row(
  name: string,
  at: string,
  cells: Row["cells"],
  target: (scene: Scene, who: Knocker) => Target,
  method: string | undefined = /^(GET|POST|DELETE) /.exec(at)?.[1],
): Row {
  const asked = method === "POST" || method === "DELETE" ? method : "GET";
  return { name, at, cells, act: (scene, who) => ask(scene, who, asked, target(scene, who)) };
}

function by(action: Action, among: readonly Knocker[], decided: Row): Row {
  return { ...decided, by: { action, among } };
}

async function ask(scene: Scene, who: Knocker, method: Method, [path, body]: Target) {
  const answer = await scene.people[who].visitor.ask(method, path, body);
  return refusalOf(answer) ?? (answer.status < 300 ? ok : String(answer.status));
}

function ofBoard(rest = "", body?: unknown): (scene: Scene) => Target {
  return (scene) => [`${apiPath.board(scene.board)}${rest}`, body];
}

function ofLane(rest: string, body?: unknown): (scene: Scene) => Target {
  return ofBoard(`/lanes/${rest}`, body);
}

function toMember(to: Knocker, rest: string): (scene: Scene) => Target {
  return (scene) => [`${apiPath.board(scene.board)}${rest}`, { to: scene.people[to].me.id }];
}

function link(role: "player" | "listener" | "self"): (scene: Scene) => Target {
  return ofBoard("/links", { role, days: 1, uses: 1 });
}

function sevenTimes(cell: Cell) {
  return [cell, cell, cell, cell, cell, cell, cell] as const;
}
