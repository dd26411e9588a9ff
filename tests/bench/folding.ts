/**
 * How long the thread that serves stands still while a document of 4,000 rows is opened and
 * answered, and while it is folded: beside the same done in that thread.
 */
import { startFoldingThread } from "@halflap/server/folding-thread";
import { Rooms } from "@halflap/server/rooms";
import { SaveLoop } from "@halflap/server/save-loop";
import {
  hashOf,
  makeBoardId,
  makeMemberId,
  makeMessageId,
  makeSecret,
} from "@halflap/server/secret";
import { openStore } from "@halflap/server/sqlite";
import * as Y from "yjs";
import { type Figure, percentile } from "./figure.ts";

const rowCount = 4_000;
const slots = 1_300;
const runs = 7;

/** The longest time between two turns of the event loop, in ms. */
export async function folding(): Promise<readonly Figure[]> {
  const store = openStore({ path: ":memory:", pagesMax: undefined }, () => 1);
  const thread = startFoldingThread();
  const figures = { opened: { beside: [], here: [] }, folded: { beside: [], here: [] } } as {
    readonly [what in "opened" | "folded"]: { beside: number[]; here: number[] };
  };
  const updates = editsOf(rowCount);
  for (let run = 0; run <= runs; run += 1) {
    for (const where of ["beside", "here"] as const) {
      const key = { board: makeBoardId(), document: "lane-upper" } as const;
      const leader = { id: makeMemberId(), name: "Ada", role: "leader" } as const;
      const session = hashOf(makeSecret());
      const rows = updates.map((update) => {
        return { key, message: makeMessageId(), update, bindings: [] };
      });
      await store.people.makeBoard({ id: key.board, leader, session, at: 1, rows });
      const onFault = (fault: unknown) => {
        throw fault;
      };
      const { log, people } = store;
      const saveLoop = new SaveLoop({ log, now: () => performance.now(), onFault });
      const rooms = new Rooms({
        ...{ log, people, saveLoop, onFault },
        folding: where === "beside" ? thread : undefined,
      });
      const opened = await stallDuring(async () => {
        const { room } = await rooms.lease(key);
        room.held.bytes.since(new Map());
      });
      const folded = await stallDuring(() => rooms.compactLong());
      if ((await log.load(key)).rows.length !== 1) throw new Error("it was not folded");
      if (run === 0) continue; // warms up
      figures.opened[where].push(opened);
      figures.folded[where].push(folded);
      await people.removeBoard(key.board);
    }
  }
  await thread.close();
  await store.close();
  return [
    figureOf("opened and answered", figures.opened),
    figureOf("folded and taken anew", figures.folded),
  ];
}

function figureOf(what: string, { beside, here }: { beside: number[]; here: number[] }): Figure {
  return {
    name: `${rowCount} rows ${what}: the longest stall, p50`,
    unit: "ms",
    value: percentile(beside, 0.5),
    budget: undefined,
    baseline: { name: "the same in the thread that serves", value: percentile(here, 0.5) },
  };
}

function editsOf(count: number): readonly Uint8Array[] {
  const doc = new Y.Doc();
  const updates: Uint8Array[] = [];
  doc.on("update", (update: Uint8Array) => updates.push(update));
  for (let at = 0; at < count; at += 1) {
    doc.getMap("grips").set(`slot-${at % slots}`, { grip: `x-x-${at % 9}-2-4-x`, at });
  }
  return updates;
}

async function stallDuring(work: () => Promise<void>): Promise<number> {
  let longest = 0;
  let last = performance.now();
  let isOver = false;
  const turn = () => {
    const now = performance.now();
    longest = Math.max(longest, now - last);
    last = now;
    if (!isOver) setImmediate(turn);
  };
  setImmediate(turn);
  await work();
  isOver = true;
  return Math.max(longest, performance.now() - last);
}
