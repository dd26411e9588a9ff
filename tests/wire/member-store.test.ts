/** What a store holds about a person: told whole, and taken out without taking the band's music. */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { openStoreReadOnly } from "@halflap/server/store";
import { apiPath } from "@halflap/wire/api";
import Sqlite from "better-sqlite3";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { type Band, claimLane, makeBand } from "../support/band.ts";
import { expectOk } from "../support/browser-session.ts";
import { RawClient } from "../support/raw-client.ts";
import { runHalflap } from "../support/run-halflap.ts";
import { saidIn, say } from "../support/say.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";
import { sendBody, takeBody, wavOf } from "../support/take-sender.ts";

// Several processes a test, and a start costs seconds on a busy machine.
vi.setConfig({ testTimeout: 180_000, hookTimeout: 180_000 });

/** Names that occur nowhere else. */
const firstName = "Zweigart Quillfeather";
const laterName = "Zweigart Marrowfinch";

let server: TestServer;
let band: Band;
let second: string;
let folder: string;

/** Ben plays on the band's board, renames himself, records, and leads a board of his own. */
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "halflap-member-"));
  server = await startTestServer();
  band = await makeBand(server.address);
  const { visitor } = band.player;
  for (const name of [firstName, laterName]) {
    expectOk(await visitor.ask("POST", apiPath.name(band.board), { name }));
  }
  await claimLane(band.player, band.board, "lower");
  expectOk(await visitor.ask("POST", apiPath.links(band.board), selfLink));
  expect((await sendBody(visitor, band.board, takeBody(wavOf(2_000)))).status).toBe(201);
  const writer = await RawClient.synced(visitor, band.board, "lane-lower");
  say(writer, "riff", "Bb6");
  await writer.until((frame) => frame.kind === "saved" && frame.decided === 1);
  await writer.close();
  second = (await visitor.makeBoard(laterName)).board;
});

afterEach(async () => {
  await removeTestServer(server);
  rmSync(folder, { recursive: true, force: true });
});

const selfLink = { role: "self", days: 1, uses: 1 };

test("the report has boards, names, lanes, sessions, links, takes and their sound", async () => {
  const takes = join(folder, "takes");
  const words = ["export-member", band.player.me.id, "--store", server.folder];
  const { exit, out } = await runHalflap([...words, "--json", "--takes", takes]);
  expect(exit).toBe(0);
  const { memberships } = JSON.parse(out) as { memberships: readonly { board: string }[] };
  const on = (board: string) => memberships.find((one) => one.board === board);
  expect(memberships).toHaveLength(2);
  expect(on(band.board)).toMatchObject({
    member: band.player.me.id,
    name: laterName,
    role: "player",
    title: "Slow Train",
    lanes: ["lower"],
    sessions: 1,
    links: [{ usesLeft: 1, revoked: false }],
    takes: [{ name: "Riff", type: "audio/wav", bytes: 2_000 }],
    writings: { "lane-lower": 1 },
  });
  expect(on(second)).toMatchObject({ name: laterName, role: "leader" });
  const [sound] = readdirSync(takes);
  expect(readFileSync(join(takes, sound ?? ""))).toEqual(wavOf(2_000));
  expect(out).not.toContain("Ada");
  expect((await runHalflap(words)).out).toContain(`${laterName}, player`);
  const unknown = await runHalflap(["export-member", "nobody", "--store", server.folder]);
  expect(unknown).toMatchObject({
    exit: 2,
    err: 'There is no member "nobody" in this store.\n',
  });
});

test("deleting takes name and sessions out to the last byte, and leaves the music", async () => {
  const words = ["delete-member", band.player.me.id, "--store", server.folder];
  const used = await runHalflap(words);
  expect(used).toMatchObject({
    exit: 2,
    err: `${server.file} is in use; stop the server first.\n`,
  });
  await server.stop();
  const bytes = () => readFileSync(server.file).toString("latin1");
  expect(bytes()).toContain(laterName);
  const alone = await runHalflap(words);
  expect(alone.exit).toBe(2);
  expect(alone.err).toContain(`Nobody else could lead ${second}.`);
  expect(bytes()).toContain(laterName);

  const { exit, out } = await runHalflap([...words, "--with-boards", "--json"]);
  expect(exit).toBe(0);
  const { boards } = JSON.parse(out) as { boards: readonly unknown[] };
  expect(boards).toContainEqual({ board: band.board, isDeleted: false, takes: 1 });
  expect(boards).toContainEqual({ board: second, isDeleted: true, takes: 0 });
  expect(bytes()).not.toContain("Zweigart");
  expect(bytes()).not.toContain("Quillfeather");
  const store = openStoreReadOnly(server.folder);
  expect(store.listBoards().map(({ id }) => id)).toEqual([band.board]);
  const documents = store.documents(band.board);
  expect(documents && saidIn(documents["lane-lower"])).toEqual({ riff: "Bb6" });
  store.close();
  expect(left()).toEqual({ members: 2, takes: 1, selfLinks: 0 });
  expect((await runHalflap(["verify", "--store", server.folder])).exit).toBe(0);
});

test("a deletion that fails halfway goes on where it was, and leaves no name behind", async () => {
  await server.stop();
  const words = ["delete-member", band.player.me.id, "--store", server.folder, "--with-boards"];
  const talk = `(SELECT id FROM documents WHERE board = '${band.board}' AND name = 'talk')`;
  inFile(`INSERT INTO updates (document, at, data) VALUES (${talk}, 1, x'ff')`);
  expect((await runHalflap(words)).exit).not.toBe(0);
  inFile("DELETE FROM updates WHERE data = x'ff'");
  const again = await runHalflap(words);
  expect([again.exit, again.err]).toEqual([0, ""]);
  expect(left()).toMatchObject({ members: 2 });
  expect(readFileSync(server.file).toString("latin1")).not.toContain("Zweigart");
  expect((await runHalflap(["verify", "--store", server.folder])).exit).toBe(0);
});

/** A statement asked beside all commands. */
function inFile(sql: string): void {
  const db = new Sqlite(server.file);
  db.exec(sql);
  db.close();
}

test("a board whose leader is deleted goes on to the player who owns a lane", async () => {
  await server.stop();
  const words = ["delete-member", band.leader.me.id, "--store", server.folder];
  expect((await runHalflap(words)).out).toContain(`${band.player.me.id} leads it now.`);
  const variables = { HALFLAP_PORT: new URL(server.address).port };
  server = await startTestServer({ folder: server.folder, variables });
  const answer = await band.player.visitor.ask("GET", apiPath.board(band.board));
  expect(expectOk(answer)).toMatchObject({ me: { role: "leader" } });
});

function left() {
  const db = new Sqlite(server.file, { readonly: true });
  const count = (sql: string) => db.prepare<[], { n: number }>(sql).get()?.n;
  const found = {
    members: count("SELECT count(*) AS n FROM members"),
    takes: count("SELECT count(*) AS n FROM takes"),
    selfLinks: count("SELECT count(*) AS n FROM links WHERE role = 'self'"),
  };
  db.close();
  return found;
}
