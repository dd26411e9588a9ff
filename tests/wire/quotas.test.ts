/** Quotas by member, board and server: each refused in words, and others not touched. */
import { documentNames } from "@halflap/board/documents";
import { apiPath, type BoardId } from "@halflap/wire/api";
import {
  boardBytesMax,
  boardsPerMemberMax,
  boardsPerServerMax,
  seatsPerMemberMax,
  socketsPerBoardMax,
} from "@halflap/wire/limits";
import { closeCode } from "@halflap/wire/messages";
import Sqlite from "better-sqlite3";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { expectOk, refusalOf, smallCopy, Visitor } from "../support/browser-session.ts";
import { RawClient } from "../support/raw-client.ts";
import { say } from "../support/say.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

// A start costs seconds on a busy machine, and some of these open a thousand sockets.
vi.setConfig({ testTimeout: 180_000, hookTimeout: 180_000 });

let server: TestServer;
let leader: Visitor;
let board: BoardId;

beforeEach(async () => {
  server = await startTestServer();
  leader = new Visitor(server.address);
  ({ board } = await leader.makeBoard());
});

afterEach(() => removeTestServer(server));

/** Writes into the store beside the server. */
function beside(statement: string, ...values: readonly (string | number)[]): void {
  const db = new Sqlite(server.file);
  db.pragma("busy_timeout = 5000");
  db.prepare(statement).run(...values);
  db.close();
}

const counting = "WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < ?)";

function makeBoards(count: number): void {
  beside(`${counting} INSERT INTO boards (id, made_at) SELECT printf('%022d', i), 1 FROM n`, count);
}

const asked = { name: "Ada", copy: smallCopy() };

test("whoever leads as many boards as one may is told so; joining another's goes on", async () => {
  const count = boardsPerMemberMax - 1;
  makeBoards(count);
  beside(
    `${counting} INSERT INTO members SELECT printf('%022d', i), 'm', 'Ada', 'leader' FROM n`,
    count,
  );
  beside(
    `${counting} INSERT INTO sessions
     SELECT (SELECT hash FROM sessions LIMIT 1), printf('%022d', i), 'm' FROM n`,
    count,
  );
  const refused = await leader.ask("POST", apiPath.boards, asked);
  expect([refused.status, refusalOf(refused)]).toEqual([409, "boards-full"]);
  expect(JSON.stringify(refused.body)).toContain(`You lead ${boardsPerMemberMax} boards`);
  const other = new Visitor(server.address);
  const theirs = await other.makeBoard("Ben");
  const { secret } = await other.invite(theirs.board, "player");
  expect((await leader.join(secret, "Ada")).board).toBe(theirs.board);
  expectOk(await leader.ask("DELETE", apiPath.board(board)));
  expectOk(await leader.ask("POST", apiPath.boards, asked));
});

test("a server that keeps as many boards as it may makes no more until one is gone", async () => {
  makeBoards(boardsPerServerMax - 1);
  const stranger = new Visitor(server.address);
  const refused = await stranger.ask("POST", apiPath.boards, asked);
  expect([refused.status, refusalOf(refused)]).toEqual([409, "boards-full"]);
  expectOk(await leader.ask("DELETE", apiPath.board(board)));
  expectOk(await stranger.ask("POST", apiPath.boards, asked));
});

test("a board's documents are bounded together, also those that nobody has open", async () => {
  const other = (await leader.makeBoard()).board;
  for (const document of ["lane-upper", "lane-lower"]) {
    beside(
      `INSERT INTO updates (document, at, data) SELECT id, 1, zeroblob(?) FROM documents
       WHERE board = ? AND name = ?`,
      boardBytesMax / 2,
      board,
      document,
    );
  }
  const writer = await RawClient.synced(leader, board, "board");
  say(writer, "one", "more");
  expect(await writer.until(({ kind }) => kind === "refused")).toMatchObject({ why: "board-full" });
  const elsewhere = await RawClient.synced(leader, other, "board");
  say(elsewhere, "one", "more");
  await elsewhere.until((frame) => frame.kind === "saved" && frame.decided === 1);
  expect(elsewhere.count("refused")).toBe(0);
  await Promise.all([writer.close(), elsewhere.close()]);
});

test("a board has so many places; who finds none is told to come again", async () => {
  const ofEach = documentNames.length * seatsPerMemberMax;
  const members = [leader];
  const { secret } = await leader.invite(board, "listener", 20);
  while (members.length * ofEach < socketsPerBoardMax) {
    const member = new Visitor(server.address);
    await member.join(secret, `Listener ${members.length}`);
    members.push(member);
  }
  const open: RawClient[] = [];
  for (const member of members) {
    for (const document of documentNames) {
      const some = Array.from({ length: seatsPerMemberMax }, () =>
        RawClient.open(member, board, document),
      );
      await Promise.all(some.map((client) => client.until(({ kind }) => kind === "step-1")));
      open.push(...some);
    }
  }
  expect(open).toHaveLength(socketsPerBoardMax);
  const late = new Visitor(server.address);
  await late.join(secret, "Late");
  expect(await RawClient.open(late, board, "board").closed).toEqual({
    code: closeCode.tryLater,
    reason: "too many are connected",
  });
  const elsewhere = (await late.makeBoard()).board;
  await (await RawClient.synced(late, elsewhere, "board")).close();
  await open[0]?.close();
  await (await RawClient.synced(late, board, "board")).close();
  for (const client of open) client.socket.terminate();
});
