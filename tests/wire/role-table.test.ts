/**
 * W1, W2, W4: who may do what, each of the seven with each route and each frame, by real requests;
 * a route or a frame that no row speaks of fails.
 */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { documentNames } from "@halflap/board/documents";
import { readConfig } from "@halflap/server/config";
import { clientOpcodes } from "@halflap/server/frames";
import { makeLog } from "@halflap/server/log";
import type { Store } from "@halflap/server/ports";
import { type RunningServer, startServer } from "@halflap/server/server";
import { actions, mayTake, mayWrite } from "@halflap/wire/permissions";
import { afterAll, beforeAll, expect, test } from "vitest";
import { RawClient } from "../support/raw-client.ts";
import { httpRows } from "../support/roles/http-rows.ts";
import { onBoard, type Row, withoutPlace, withoutRow, wrongCells } from "../support/roles/row.ts";
import { type Knocker, knockers, makeScene, stateOf } from "../support/roles/scene.ts";
import { socketRows } from "../support/roles/socket-rows.ts";

const rows = [...httpRows, ...socketRows];

type Trial = { readonly server: RunningServer; readonly store: Store; readonly folder: string };

let trial: Trial;
let faults: string[];

beforeAll(async () => {
  faults = [];
  trial = await startTrial((store) => store);
});

afterAll(() => endTrial(trial));

/** A server on a free port over a new store, and that store as it is below the server. */
async function startTrial(altered: (store: Store) => Store): Promise<Trial> {
  const folder = mkdtempSync(join(tmpdir(), "halflap-"));
  writeFileSync(join(folder, "index.html"), "<!doctype html><title>page</title>");
  const variables = { HALFLAP_PORT: "0", HALFLAP_DATA: folder, HALFLAP_WEB: folder };
  const log = makeLog(
    (line) => (line.includes('"level":"fault"') ? faults.push(line) : undefined),
    () => new Date(),
  );
  const below: Store[] = [];
  const server = await startServer(readConfig(variables), log, (store) => {
    below.push(store);
    return altered(store);
  });
  const [store] = below;
  if (store === undefined) throw new Error("the server opened no store");
  return { server, store, folder };
}

async function endTrial({ server, folder }: Trial): Promise<void> {
  await server.stop();
  rmSync(folder, { recursive: true, force: true });
}

const groundOf = ({ server, store }: Trial) => ({
  makeScene: () => makeScene(store, server.address),
  stateOf: (scene: Awaited<ReturnType<typeof makeScene>>) => stateOf(store, scene),
});

/** Each of some 400 cells is a request or a socket, and each that was done a new board. */
const cellsMs = 240_000;

test.each([
  ["requests", httpRows],
  ["sockets", socketRows],
] as const)(
  "every cell of the %s is as the list says, and what is refused changes nothing",
  async (_, group) => {
    expect(await wrongCells(group, groundOf(trial))).toEqual([]);
    expect(faults).toEqual([]);
  },
  cellsMs,
);

test("every route and every frame has a row, and every row a route or a frame", () => {
  const places = [...trial.server.routes, ...clientOpcodes];
  expect(withoutRow(places, rows)).toEqual([]);
  expect(withoutPlace(places, rows)).toEqual([]);
});

test("a route, a frame and a row too many are each found", () => {
  expect(withoutRow([...trial.server.routes, "GET /api/attic"], rows)).toEqual(["GET /api/attic"]);
  expect(withoutRow([...clientOpcodes, "0.3"], rows)).toEqual(["0.3"]);
  const [first] = rows;
  if (first === undefined) throw new Error("there are no rows");
  const places = [...trial.server.routes, ...clientOpcodes];
  expect(withoutPlace(places, [{ ...first, name: "an attic", at: "GET /attic" }])).toEqual([
    "an attic",
  ]);
});

/** Whether one of the seven may, by their role alone. */
function mayBy(who: Knocker, { by }: Row): boolean | undefined {
  if (by === undefined || !by.among.includes(who)) return undefined;
  const role = who === "laned" ? "player" : who;
  return role === "leader" || role === "player" || role === "listener"
    ? mayTake(role, by.action)
    : undefined;
}

test("the list and the table that the server uses agree, and no action is left out", () => {
  const quarrels = rows.flatMap((row) =>
    knockers
      .filter((who) => {
        const may = mayBy(who, row);
        return may !== undefined && may !== (row.cells[who] === "done");
      })
      .map((who) => `${row.name}: ${who}`),
  );
  expect(quarrels).toEqual([]);
  const named = new Set(rows.map(({ by }) => by?.action));
  expect(actions.filter((action) => !named.has(action))).toEqual([]);
});

test("the list and the table of documents agree", async () => {
  const { people } = await makeScene(trial.store, trial.server.address);
  const owners = { upper: people.laned.me.id, lower: undefined };
  for (const document of documentNames) {
    const edit = socketRows.find(({ name }) => name === `an edit with news for ${document}`);
    const listed = onBoard.map((who) => edit?.cells[who] === "done");
    const may = onBoard.map((who) => mayWrite(document, people[who].me, owners));
    expect([document, ...listed]).toEqual([document, ...may]);
  }
});

test("no other number begins a frame", async () => {
  const { board, people } = await makeScene(trial.store, trial.server.address);
  const client = await RawClient.synced(people.leader.visitor, board, "board");
  const strange = [...Array(128).keys()]
    .filter((number) => number > 0 && !clientOpcodes.includes(String(number)))
    .map((number) => [number, 1, 0]);
  const strangeSync = [...Array(128).keys()]
    .filter((kind) => !clientOpcodes.includes(`0.${kind}`))
    .map((kind) => [0, kind, 1, 0]);
  const frames = [...strange, ...strangeSync];
  for (const frame of frames) client.sendBytes(new Uint8Array(frame));
  await client.settled();
  const refused = client.heard.flatMap((frame) => (frame.kind === "refused" ? [frame.why] : []));
  expect(refused).toEqual(frames.map(() => "malformed"));
  await client.close();
});

test("a row that expects otherwise is found", async () => {
  const end = httpRows.find(({ at }) => at === "DELETE /api/boards/:board");
  if (end === undefined) throw new Error("no row for the end of a board");
  const lenient = { ...end, cells: { ...end.cells, player: "done" } };
  expect(await wrongCells([lenient], groundOf(trial))).toEqual([
    { row: end.name, who: "player", what: "not-allowed instead of done" },
  ]);
});

test("a server that takes every member for the leader is found", async () => {
  const broken = await startTrial((store) => ({
    ...store,
    people: {
      ...store.people,
      memberOf: async (session, board) => {
        const me = await store.people.memberOf(session, board);
        return me && { ...me, role: "leader" };
      },
    },
  }));
  try {
    const ends = httpRows.filter(({ by }) => by?.action === "delete-board");
    const wrong = await wrongCells(ends, groundOf(broken));
    expect(wrong.map(({ who }) => who)).toEqual(["listener", "player", "laned"]);
  } finally {
    await endTrial(broken);
  }
});
