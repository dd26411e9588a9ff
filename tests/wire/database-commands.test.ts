/** What whoever keeps a server does with a database: looked through, told, restored, forgotten. */
import { execFileSync } from "node:child_process";
import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { apiPath, type BoardAnswer, type BoardId } from "@halflap/wire/api";
import { closeCode } from "@halflap/wire/messages";
import pg from "pg";
import { afterAll, afterEach, beforeAll, beforeEach, expect, test, vi } from "vitest";
import { findStores } from "../../scripts/stores.mjs";
import { type Band, claimLane, makeBand } from "../support/band.ts";
import { expectOk } from "../support/browser-session.ts";
import { startPostgres, type TestPostgres } from "../support/postgres.ts";
import { RawClient } from "../support/raw-client.ts";
import { type Ended, runHalflap } from "../support/run-halflap.ts";
import { saidIn, say } from "../support/say.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";
import { sendBody, takeBody, wavOf } from "../support/take-sender.ts";

// Several processes a test, and a start costs seconds on a busy machine.
vi.setConfig({ testTimeout: 180_000, hookTimeout: 180_000 });

/** Stands nowhere else. */
const playersName = "Zweigart Quillfeather";

let postgres: TestPostgres;
let server: TestServer;
let band: Band;
let folder: string;
let variables: Record<string, string>;
let databases = 0;

beforeAll(async () => {
  postgres = await startPostgres();
});
afterAll(() => postgres.remove());

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "halflap-database-"));
  databases += 1;
  variables = { HALFLAP_DATABASE_URL: postgres.makeDatabase(`commands_${databases}`) };
  server = await startTestServer({ variables });
  band = await makeBand(server.address);
  const { visitor } = band.player;
  expectOk(await visitor.ask("POST", apiPath.name(band.board), { name: playersName }));
  await claimLane(band.player, band.board, "lower");
  expect((await sendBody(visitor, band.board, takeBody(wavOf(2_000)))).status).toBe(201);
  await write("lane-lower", "riff");
});

afterEach(async () => {
  await removeTestServer(server);
  rmSync(folder, { recursive: true, force: true });
});

async function write(document: string, key: string): Promise<void> {
  const writer = await RawClient.synced(band.player.visitor, band.board, document);
  say(writer, key, "Bb6");
  await writer.until((frame) => frame.kind === "saved" && frame.decided === 1);
  await writer.close();
}

async function inDatabase<R extends pg.QueryResultRow>(text: string, ...values: unknown[]) {
  const client = new pg.Client({ connectionString: variables.HALFLAP_DATABASE_URL });
  await client.connect();
  try {
    return (await client.query<R>(text, values)).rows;
  } finally {
    await client.end();
  }
}

const halflap = (...words: readonly string[]) => runHalflap(words, "", variables);

test("verify reads every row and take, and names what is damaged and what is missing", async () => {
  const sound = await halflap("verify", "--json");
  expect(sound).toMatchObject({ exit: 0, err: "" });
  expect(JSON.parse(sound.out)).toMatchObject({ boards: 1, documents: 4, takes: 1, faults: [] });
  const of = `(SELECT id FROM documents WHERE board = $1 AND name = $2)`;
  const { board } = band;
  await inDatabase(
    `UPDATE updates SET data = '\\x0102' WHERE document = ${of}`,
    board,
    "lane-lower",
  );
  await inDatabase(`DELETE FROM updates WHERE document = ${of}`, board, "board");
  await inDatabase("UPDATE takes SET size = 3 WHERE board = $1", board);
  const found = await halflap("verify");
  expect(found.exit).toBe(1);
  expect(found.out).toContain(`${board} lane-lower: row 1 can't be read`);
  expect(found.out).toMatch(
    new RegExp(`${board} board: it has 0 rows of the \\d+ that were counted`),
  );
  expect(found.out).toMatch(/ take \S+: its sound has 2000 bytes instead of 3/);
});

test("a command says that there is no store, or none to be had, and no password", async () => {
  const none = await runHalflap(["verify"]);
  expect(none).toMatchObject({ exit: 2 });
  expect(none.err).toContain("HALFLAP_DATABASE_URL for a database");
  const url = new URL(variables.HALFLAP_DATABASE_URL ?? "");
  const asked = async (change: (url: URL) => void) => {
    const other = new URL(url);
    change(other);
    return runHalflap(["verify"], "", { HALFLAP_DATABASE_URL: other.href });
  };
  const away = await asked((other) => {
    other.port = "1";
  });
  const empty = await asked((other) => {
    other.pathname = "/postgres";
  });
  expect(away.err).toMatch(/^The database 127.0.0.1:1\/commands_\d+ can't be used: /);
  expect(empty.err).toMatch(/^The database 127.0.0.1:\d+\/postgres holds no store\.$/m);
  for (const { exit, err } of [away, empty]) {
    expect(exit).toBe(2);
    expect(err).not.toContain(postgres.password);
  }
});

test("a member's report and takes are written out", async () => {
  const takes = join(folder, "takes");
  const { exit, out } = await halflap(
    ...["export-member", band.player.me.id, "--json", "--takes", takes],
  );
  expect(exit).toBe(0);
  const { memberships } = JSON.parse(out) as { memberships: readonly object[] };
  expect(memberships).toMatchObject([
    {
      board: band.board,
      name: playersName,
      role: "player",
      title: "Slow Train",
      lanes: ["lower"],
      sessions: 1,
      takes: [{ name: "Riff", type: "audio/wav", bytes: 2_000 }],
      writings: { "lane-lower": 1 },
    },
  ]);
  expect(readdirSync(takes)).toHaveLength(1);
});

/** Everything in the database that may hold a name, as text. */
async function allText(): Promise<string> {
  const members = await inDatabase<{ name: string }>("SELECT name FROM members");
  const rows = await inDatabase<{ data: Buffer }>("SELECT data FROM updates");
  return [
    ...members.map(({ name }) => name),
    ...rows.map(({ data }) => data.toString("latin1")),
  ].join("\n");
}

test("a member is forgotten beside a running node, which sends them away", async () => {
  const sitting = await RawClient.synced(band.player.visitor, band.board, "lane-lower");
  expect(await allText()).toContain("Quillfeather");
  const { exit, out } = await halflap("delete-member", band.player.me.id, "--json");
  expect([exit, JSON.parse(out)]).toEqual([
    0,
    { boards: [{ board: band.board, isDeleted: false, takes: 1 }] },
  ]);
  expect((await sitting.closed).code).toBe(closeCode.revoked);
  expect(await allText()).not.toContain("Quillfeather");
  const { visitor } = band.leader;
  const lane = await RawClient.synced(visitor, band.board, "lane-lower");
  expect(saidIn(lane.doc)).toEqual({ riff: "Bb6" });
  await lane.close();
  expect((await halflap("verify")).exit).toBe(0);
});

test.each([
  ["on by", "leader"],
  ["to", "player"],
] as const)("a lead handed %s whoever is being forgotten leaves one leader", async (_way, who) => {
  const line = new pg.Client({ connectionString: variables.HALFLAP_DATABASE_URL });
  await line.connect();
  const gone = band[who].me.id;
  const heir = who === "leader" ? band.listener.me.id : gone;
  // As a node does it: the command has read who leads when this one commits.
  await line.query("BEGIN");
  await line.query("UPDATE boards SET people_version = people_version + 1");
  await line.query("UPDATE members SET role = 'player' WHERE role = 'leader'");
  await line.query("UPDATE members SET role = 'leader' WHERE id = $1", [heir]);
  const command = halflap("delete-member", gone);
  let early: Ended | undefined;
  void command.then((ended) => {
    early = ended;
  });
  const isWaiting = async () => (await inDatabase(waiting)).length > 0;
  await vi.waitUntil(async () => early ?? (await isWaiting()), { timeout: 60_000 });
  expect(early).toBeUndefined();
  await line.query("COMMIT");
  await line.end();
  expect((await command).exit).toBe(0);
  const leading = await inDatabase<{ id: string }>("SELECT id FROM members WHERE role = 'leader'");
  expect(leading).toHaveLength(1);
  expect(leading[0]?.id === heir).toBe(who === "leader");
  expect((await halflap("verify")).exit).toBe(0);
});

/** Whoever waits for a row that another transaction holds. */
const waiting = "SELECT pid FROM pg_stat_activity WHERE wait_event_type = 'Lock'";

const epochOf = async (board: BoardId): Promise<number> => {
  const answer = await band.leader.visitor.ask("GET", apiPath.board(board));
  return (expectOk(answer) as BoardAnswer).epoch;
};

function postgresTool(name: string, ...words: readonly string[]): void {
  execFileSync(join(findStores().postgres ?? "", name), [...words], { stdio: "inherit" });
}

test("after pg_restore and raised epochs, pages that knew more are turned away", async () => {
  const { HALFLAP_DATABASE_URL: database = "" } = variables;
  const { visitor } = band.player;
  const file = join(folder, "boards.dump");
  const before = await epochOf(band.board);
  postgresTool("pg_dump", "--format=custom", `--file=${file}`, database);
  await write("lane-lower", "late");
  const node = await RawClient.synced(band.leader.visitor, band.board, "board");
  expect(await halflap("raise-epochs")).toMatchObject({
    exit: 2,
    err: "The database is in use; stop the nodes first.\n",
  });
  await node.close();
  await server.stop();
  // Beside the old one: parts of tables, which "updates" has, can't be replaced where they stand.
  const restored = postgres.makeDatabase(`restored_${databases}`);
  postgresTool("pg_restore", "--single-transaction", `--dbname=${restored}`, file);
  variables = { HALFLAP_DATABASE_URL: restored };
  const raised = await halflap("raise-epochs");
  expect(raised).toMatchObject({ exit: 0, err: "" });
  expect(raised.out).toContain("1 board under a new epoch");

  const port = new URL(server.address).port;
  server = await startTestServer({ variables: { ...variables, HALFLAP_PORT: port } });
  const now = await epochOf(band.board);
  expect(now).toBeGreaterThan(before);
  const stale = RawClient.open(visitor, band.board, `lane-lower?epoch=${before}&after=`);
  expect((await stale.closed).code).toBe(closeCode.otherEpoch);
  const fresh = await RawClient.synced(visitor, band.board, `lane-lower?epoch=${now}&after=`);
  expect(saidIn(fresh.doc)).toEqual({ riff: "Bb6" });
  await fresh.close();
  expect((await halflap("verify")).exit).toBe(0);
});

test("a database that may forget what it stored is not changed, and that is said", async () => {
  await server.stop();
  const name = new URL(variables.HALFLAP_DATABASE_URL ?? "").pathname.slice(1);
  await inDatabase(`ALTER DATABASE "${name}" SET synchronous_commit = off`);
  for (const words of [["raise-epochs"], ["delete-member", band.player.me.id]]) {
    const { exit, err } = await halflap(...words);
    expect([exit, err]).toEqual([
      2,
      expect.stringMatching(/^The database .* = off: .* it on\.\n$/),
    ]);
  }
});
