/** A dense board of 128 bars goes into a real server and comes out whole. */
import { copyOf } from "@halflap/board/copy";
import { afterAll, beforeAll, expect, test } from "vitest";
import { Visitor } from "../support/browser-session.ts";
import { fullBoard } from "../support/full-board.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";
import { StockClient } from "../support/stock-client.ts";

let server: TestServer;

beforeAll(async () => {
  server = await startTestServer();
});

afterAll(() => removeTestServer(server));

test("128 bars of sixteenths and fills in both lanes arrive whole in a stock client", async () => {
  const leader = new Visitor(server.address);
  const copy = fullBoard(128, "dense");
  const { board } = await leader.makeBoard("Ada", copy);
  const clients = await StockClient.allOf(leader, board);
  expect(copyOf(clients.documents)).toEqual(copy);
  clients.close();
});
