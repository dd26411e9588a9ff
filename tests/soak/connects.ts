/**
 * Pages that come, write, and go, by the thousand: when the last one has left, no room and no
 * socket is left either, and the server has grown by no more than it may.
 */
import { fileURLToPath } from "node:url";
import { type DocumentName, documentNames } from "@halflap/board/documents";
import { apiPath, type BoardId } from "@halflap/wire/api";
import { Visitor } from "../support/browser-session.ts";
import { RawClient } from "../support/raw-client.ts";
import { decidedOf, say } from "../support/say.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

export type Connects = {
  readonly connects: number;
  /** Bytes of objects alive when it was warm, and after the last page had left. */
  readonly warm: number;
  readonly after: number;
  readonly faults: readonly string[];
};

type Weight = { readonly rooms: number; readonly sockets: number; readonly alive: number };

const weighedEntry = fileURLToPath(new URL("./weighed-server.ts", import.meta.url));
const boardCount = 5;
const written: readonly DocumentName[] = documentNames.filter((name) => name !== "talk");
/** As many at a time as there are documents: each opens a room, and closes it again. */
const atOnce = boardCount * written.length;
const warmUp = 8;
/** So long after the last one left, everything must be back. */
const backWithinMs = 60_000;
const grownMax = 20 * 1024 * 1024;

export type ConnectOptions = {
  /** The time over which they are spread, in ms; as fast as it goes without. */
  readonly overMs?: number;
  /** Whether the server forgets nothing: the variant that must be caught. */
  readonly leaks?: boolean;
};

/** Lets so many pages come and go at one server. */
export async function runConnects(
  connects: number,
  { overMs = 0, leaks = false }: ConnectOptions = {},
): Promise<Connects> {
  const variables = { HALFLAP_METRICS: "0", ...(leaks ? { HALFLAP_TRIAL_LEAK: "yes" } : {}) };
  const server = await startTestServer({ entry: weighedEntry, variables });
  const leader = new Visitor(server.address);
  const boards: BoardId[] = [];
  while (boards.length < boardCount) boards.push((await leader.makeBoard()).board);
  for (const board of boards) await leader.ask("POST", apiPath.lane(board, "upper", "claim"));
  const faults: string[] = [];
  for (let round = 0; round < warmUp; round += 1) await batch(leader, boards, round);
  const warm = await emptied(server, faults);
  const startedAt = performance.now();
  let done = 0;
  for (; done < connects; done += atOnce) {
    await batch(leader, boards, done);
    await until(startedAt + (overMs * done) / connects);
  }
  const after = await emptied(server, faults);
  if (after.alive > warm.alive * 1.1 + grownMax) {
    faults.push(`it grew from ${warm.alive} to ${after.alive} bytes over ${done} connects`);
  }
  await removeTestServer(server);
  return { connects: done, warm: warm.alive, after: after.alive, faults };
}

function until(at: number): Promise<void> {
  return new Promise((resolve) => {
    setTimeout(resolve, at - performance.now());
  });
}

/** One page for each document: all come, write where they may, read that it is saved, and go. */
async function batch(leader: Visitor, boards: readonly BoardId[], number: number): Promise<void> {
  const pages = boards.flatMap((board) => written.map((document) => ({ board, document })));
  await Promise.all(
    pages.map(async ({ board, document }) => {
      const page = await RawClient.synced(leader, board, document);
      if (document !== "lane-lower") {
        say(page, "key", number);
        await page.until(() => decidedOf(page) > 0);
      }
      await page.close();
    }),
  );
}

/** What the server weighs once nobody is there; a fault when somebody still is after a while. */
async function emptied(server: TestServer, faults: string[]): Promise<Weight> {
  const endsAt = performance.now() + backWithinMs;
  let weight = await weigh(server);
  while (weight.rooms + weight.sockets > 0 && performance.now() < endsAt) {
    weight = await weigh(server);
  }
  if (weight.rooms + weight.sockets > 0) {
    faults.push(`${weight.rooms} rooms and ${weight.sockets} sockets are left with nobody there`);
  }
  return weight;
}

async function weigh(server: TestServer): Promise<Weight> {
  const told = () => [...server.logs().matchAll(/^weighed (.*)$/gm)].map(([, weight]) => weight);
  const before = told().length;
  process.kill(server.pid, "SIGUSR2");
  await server.logged(new RegExp(`(^weighed .*\\n[^]*){${before + 1}}`, "m"));
  return JSON.parse(told().at(-1) ?? "");
}
