/** A dense board and a whole part that is offered go into a real server and come out whole. */
import { copyOf } from "@halflap/board/copy";
import { emptyDocuments } from "@halflap/board/documents";
import { addProposal } from "@halflap/board/edits/proposals";
import { barId, proposalId, slotId } from "@halflap/board/ids";
import { proposalEditsMax } from "@halflap/board/limits";
import { makeReader } from "@halflap/board/read";
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

test("a proposal of 1,024 grips reaches the other player whole", async () => {
  const leader = new Visitor(server.address);
  const { board } = await leader.makeBoard();
  const { secret } = await leader.invite(board, "player");
  const player = new Visitor(server.address);
  await player.join(secret, "Ben");
  const here = await StockClient.of(leader, board, "board");
  const there = await StockClient.of(player, board, "board");
  const edits = Array.from({ length: proposalEditsMax }, (_, i) => ({
    ...{ kind: "grip" as const, slot: slotId(`solo~slot-${i}`), grip: "x-x-10-12-11-x" },
  }));
  const id = proposalId("part");
  const bars = [barId("bar")];
  addProposal(here.doc, { id, lane: "upper", from: undefined, words: "all of it", bars, edits });
  const read = makeReader({ ...emptyDocuments(), board: there.doc });
  await there.until(() => read().proposals.length > 0);
  expect(read().proposals[0]?.edits).toEqual(edits);
  here.close();
  there.close();
});
