/** A server stopped and started while 200 pages have boards open and go on editing. */
import { openStoreReadOnly } from "@halflap/server/store";
import type { BoardId } from "@halflap/wire/api";
import { Visitor } from "../support/browser-session.ts";
import { saidIn } from "../support/say.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";
import { StockClient } from "../support/stock-client.ts";

export type Restarts = {
  readonly restarts: number;
  readonly pages: number;
  /** The longest that it took from the server's address until all had everything, in ms. */
  readonly slowestMs: number;
  /** Edits, made while it ran or was away, that are not on its disk. */
  readonly lost: number;
};

export type RestartOptions = {
  /** Whether pages stay away once the server stopped: the variant that must be caught. */
  readonly stayAway?: boolean;
  /** How long all are waited for before what is not there counts as lost, in ms. */
  readonly patienceMs?: number;
};

const boardCount = 8;
const pagesEach = 25;

type Open = { readonly board: BoardId; readonly pages: readonly StockClient[] };

/** Restarts a server so many times; in each, every page edits before and while it is away. */
export async function runRestarts(
  restarts: number,
  { stayAway = false, patienceMs = 120_000 }: RestartOptions = {},
): Promise<Restarts> {
  let server = await startTestServer();
  const leader = new Visitor(server.address);
  const variables = { HALFLAP_PORT: new URL(server.address).port };
  const open: Open[] = [];
  for (let number = 0; number < boardCount; number += 1) {
    const { board } = await leader.makeBoard();
    const pages = Array.from({ length: pagesEach }, () => StockClient.of(leader, board, "board"));
    open.push({ board, pages: await Promise.all(pages) });
  }
  let slowestMs = 0;
  for (let round = 0; round < restarts; round += 1) {
    edit(open, `${round}-before`);
    await server.stop();
    edit(open, `${round}-away`);
    if (stayAway) for (const { pages } of open) for (const page of pages) page.close();
    server = await startTestServer({ folder: server.folder, variables });
    const startedAt = performance.now();
    await within(patienceMs, everybodyHas(open, (round + 1) * 2 * pagesEach));
    slowestMs = Math.max(slowestMs, performance.now() - startedAt);
  }
  for (const { pages } of open) for (const page of pages) page.close();
  await server.stop(); // pages hear an edit before it is on the disk
  const lost = lostOn(server, open, restarts);
  await removeTestServer(server);
  return { restarts, pages: boardCount * pagesEach, slowestMs, lost };
}

function edit(open: readonly Open[], what: string): void {
  for (const { pages } of open) {
    for (const [number, page] of pages.entries())
      page.doc.getMap("trial").set(`${what}-${number}`, 1);
  }
}

/** Whatever comes first: the thing itself, or the end of the time for it. */
async function within(ms: number, thing: Promise<unknown>): Promise<void> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const over = new Promise((resolve) => {
    timer = setTimeout(resolve, ms);
  });
  await Promise.race([thing, over]);
  clearTimeout(timer);
}

async function everybodyHas(open: readonly Open[], count: number): Promise<void> {
  const all = open.flatMap(({ pages }) => pages);
  await Promise.all(all.map((page) => page.until(() => keysOf(page).length === count)));
}

function keysOf(page: StockClient): readonly string[] {
  return Object.keys(saidIn(page.doc));
}

/** How many edits are not on the disk of a server that has stopped. */
function lostOn(server: TestServer, open: readonly Open[], restarts: number): number {
  const store = openStoreReadOnly(server.folder);
  const stored = open.map(({ board }) => {
    const documents = store.documents(board);
    return documents === undefined ? 0 : Object.keys(saidIn(documents.board)).length;
  });
  store.close();
  return open.length * restarts * 2 * pagesEach - stored.reduce((sum, count) => sum + count, 0);
}
