/**
 * The stock y-websocket client against a real server: boards are made, edits travel, and what was
 * saved is there.
 */

import { copyOf } from "@halflap/board/copy";
import { emptyDocuments } from "@halflap/board/documents";
import { setTitle } from "@halflap/board/edits/chart";
import { apiPath, type BoardsAnswer } from "@halflap/wire/api";
import { afterAll, beforeAll, expect, test } from "vitest";
import { expectOk, smallCopy, Visitor } from "../support/browser-session.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";
import { StockClient } from "../support/stock-client.ts";

let server: TestServer;

beforeAll(async () => {
  server = await startTestServer();
});

afterAll(() => removeTestServer(server));

test("a board made from a copy arrives whole in a stock client", async () => {
  const leader = new Visitor(server.address);
  const copy = smallCopy("Night Ferry");
  const { board, me } = await leader.makeBoard("Ada", copy);
  expect(me).toMatchObject({ name: "Ada", role: "leader" });
  const clients = await StockClient.allOf(leader, board);
  expect(copyOf(clients.documents)).toEqual(copy);
  expect(clients.documents.talk.getMap("members").toJSON()).toEqual({
    [me.id]: { name: "Ada", role: "leader" },
  });
  clients.close();
});

test("an edit of one member reaches the other, and the list of boards", async () => {
  const leader = new Visitor(server.address);
  const { board } = await leader.makeBoard();
  const { secret } = await leader.invite(board, "player");
  const player = new Visitor(server.address);
  await player.join(secret, "Ben");
  const here = await StockClient.of(leader, board, "board");
  const there = await StockClient.of(player, board, "board");
  setTitle(here.doc, "Corner Light");
  const documents = emptyDocuments();
  await there.until(() => copyOf({ ...documents, board: there.doc }).title === "Corner Light");
  const { boards } = expectOk(await player.ask("GET", apiPath.boards)) as BoardsAnswer;
  expect(boards.map(({ title }) => title)).toEqual(["Corner Light"]);
  here.close();
  there.close();
});
