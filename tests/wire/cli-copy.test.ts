/** `halflap copy` on the store of a real server, while it runs and after it was killed. */
import { demoDraft, demoSolution } from "@halflap/board/demo";
import Sqlite from "better-sqlite3";
import { afterAll, beforeAll, expect, test } from "vitest";
import { Visitor } from "../support/browser-session.ts";
import { runHalflap } from "../support/run-halflap.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
let draft: string;

beforeAll(async () => {
  server = await startTestServer();
  const leader = new Visitor(server.address);
  draft = (await leader.makeBoard("Ada", demoDraft())).board;
  await leader.makeBoard("Ada", demoSolution());
});

afterAll(() => removeTestServer(server));

test("lists the boards of a running server's store by id, time and title", async () => {
  const { exit, out } = await runHalflap(["copy", "--store", server.file]);
  expect(exit).toBe(0);
  expect(out.trimEnd().split("\n")).toHaveLength(2);
  expect(out).toMatch(
    new RegExp(`^${draft}  \\d{4}-.*Z  Paper Ferry Home \\(first draft\\)$`, "m"),
  );
});

test("writes a board's copy, from which check finds what it finds in the original", async () => {
  const { exit, out } = await runHalflap(["copy", "--store", server.folder, draft]);
  expect(exit).toBe(0);
  expect(JSON.parse(out)).toEqual(demoDraft());
  const original = await runHalflap(["check", "-"], JSON.stringify(demoDraft()));
  expect(await runHalflap(["check", "-"], out)).toEqual(original);
});

test("refuses a board that the store does not hold", async () => {
  const { exit, err } = await runHalflap(["copy", "--store", server.file, "elsewhere"]);
  expect(exit).toBe(2);
  expect(err).toContain('There is no board "elsewhere"');
});

test("reads the store of a server that was killed", async () => {
  await server.kill();
  const { exit, out } = await runHalflap(["copy", "--store", server.file, draft]);
  expect(exit).toBe(0);
  expect(JSON.parse(out)).toEqual(demoDraft());
});

test("lists a damaged board without its title, beside all others", async () => {
  const db = new Sqlite(server.file);
  const documents = db.prepare("SELECT id FROM documents WHERE board = ? AND name = 'board'");
  const id = documents.pluck().get(draft);
  db.prepare("INSERT INTO updates (document, at, data) VALUES (?, 1, x'ff')").run(id);
  db.close();
  const { exit, out } = await runHalflap(["copy", "--store", server.file]);
  expect(exit).toBe(0);
  expect(out).toContain("  Paper Ferry Home\n");
  expect(out).toMatch(new RegExp(`^${draft}  \\S+Z  \\(can't be read; halflap verify says`, "m"));
});
