/**
 * One seeded schedule: four pages edit one document through the server's own rooms and save loop,
 * over lines that break, with pages that load again, a disk that is full now and then, folds of the
 * log, and servers that die. At the end all must agree with the store, and nothing may wait.
 */

import type { MemberId } from "@halflap/board/board";
import { compactionOf } from "@halflap/server/compaction";
import type { DocumentKey } from "@halflap/server/log-port";
import type { Store } from "@halflap/server/ports";
import { hashOf, makeBoardId, makeMemberId, makeSecret } from "@halflap/server/secret";
import { openStore } from "@halflap/server/sqlite";
import * as Y from "yjs";
import { type Chance, seeded } from "../support/seeded.ts";
import { FakePage } from "./fake-page.ts";
import { ServerLife, steppingClock, turns, type Variant } from "./server-life.ts";

export type ScheduleResult = {
  readonly edits: number;
  readonly deaths: number;
  /** Sentences; none when all is well. */
  readonly faults: readonly string[];
};

const pageCount = 4;
const stepCount = 40;
/** So often everybody is let through at the end before what still waits counts as stuck. */
const settlingMax = 40;

/** A store in memory that many schedules share; each makes a board of its own. */
export function scheduleStore(): Store {
  return openStore({ path: ":memory:", pagesMax: undefined }, () => 1);
}

/** Runs the schedule of a seed, the same way each time. */
export async function runSchedule(
  store: Store,
  seed: number,
  variant: Variant = "as-built",
): Promise<ScheduleResult> {
  const board = makeBoardId();
  const leader = { id: makeMemberId(), name: "Ada", role: "leader" } as const;
  await store.people.makeBoard({
    id: board,
    leader,
    session: hashOf(makeSecret()),
    at: 1,
    rows: [],
  });
  const stage = new Stage(store, { board, document: "board" }, seeded(seed), variant, leader.id);
  for (let step = 0; step < stepCount; step += 1) await stage.step();
  await stage.settle();
  const result = await stage.result();
  await store.people.removeBoard(board);
  return result;
}

class Stage {
  private readonly store: Store;
  private readonly key: DocumentKey;
  private readonly chance: Chance;
  private readonly variant: Variant;
  private readonly pages: readonly FakePage[];
  private readonly faults: string[] = [];
  private life: ServerLife;
  private edits = 0;
  private deaths = 0;
  private clients = 0;

  constructor(store: Store, key: DocumentKey, chance: Chance, variant: Variant, member: MemberId) {
    this.store = store;
    this.key = key;
    this.chance = chance;
    this.variant = variant;
    this.life = new ServerLife(store, chance, variant);
    this.pages = Array.from({ length: pageCount }, () => {
      const client = this.freshClient();
      const isAsked = variant !== "asks-nobody";
      return new FakePage({ member, client, now: steppingClock(100), isAsked });
    });
  }

  async step(): Promise<void> {
    const { chance } = this;
    const page = chance.pick(this.pages);
    const dice = chance.below(100);
    if (dice < 45) this.edit(page);
    else if (dice < 60) page.cut();
    else if (dice < 78) await this.connect(page);
    else if (dice < 82) page.reload(this.freshClient());
    else if (dice < 86) this.life.isFull = !this.life.isFull;
    else if (dice < 90) page.ask();
    else if (dice < 93) await this.fold();
    else if (dice < 96) await this.die();
    else this.retry();
    for (const each of this.pages) this.letThrough(each, chance.below(5));
    await turns(chance.below(3));
  }

  /** The lines hold and the disk has room: until nothing is on its way any more. */
  async settle(): Promise<void> {
    this.life.isFull = false;
    for (let round = 0; round < settlingMax; round += 1) {
      for (const page of this.pages) await this.connect(page);
      await this.life.saveLoop.flush();
      this.retry();
      for (const page of this.pages) this.letThrough(page, Number.POSITIVE_INFINITY);
      await turns(2);
      if (this.pages.every((page) => page.isQuiet)) return;
    }
    this.faults.push("something still waits when all lines hold");
  }

  async result(): Promise<ScheduleResult> {
    const stored = await this.replay();
    const wanted = stateOf(stored);
    for (const [number, { doc }] of this.pages.entries()) {
      if (stateOf(doc) !== wanted) this.faults.push(`page ${number} differs from the store`);
    }
    for (const page of this.pages) page.cut();
    this.noteLife();
    return { edits: this.edits, deaths: this.deaths, faults: this.faults };
  }

  private edit(page: FakePage): void {
    const { chance } = this;
    this.edits += 1;
    page.doc.transact(() => {
      const list = page.doc.getArray<string>("order");
      const words = page.doc.getText("words");
      const keys = page.doc.getMap("keys");
      const place = chance.below(list.length + 1);
      const kind = chance.below(5);
      if (kind === 0) list.insert(place, [`e${this.edits}`]);
      else if (kind === 1 && place < list.length) list.delete(place);
      else if (kind === 2) words.insert(chance.below(words.length + 1), `w${this.edits} `);
      else if (kind === 3 && words.length > 2) words.delete(chance.below(words.length - 1), 1);
      else keys.set(`k${chance.below(4)}`, this.edits);
    });
  }

  private async connect(page: FakePage): Promise<void> {
    if (page.isConnected) return;
    try {
      await page.connect(this.life.rooms, this.key);
    } catch (fault) {
      this.faults.push(`a page is not let in: ${String(fault)}`);
    }
  }

  private letThrough(page: FakePage, most: number): void {
    for (let left = most; left > 0 && page.isOnTheWay; left -= 1) {
      page.deliver(this.chance.happens(0.5) ? "to-server" : "to-page");
    }
  }

  private async fold(): Promise<void> {
    const { rows } = await this.store.log.load(this.key);
    try {
      const folded = compactionOf(rows);
      if (folded === undefined) return;
      await this.store.log.compact(this.key, folded.last, folded.snapshot);
    } catch (fault) {
      this.faults.push(`the log can't be folded: ${String(fault)}`);
    }
  }

  /** What was said to be saved must be in the store, whatever the server had still to do. */
  private async die(): Promise<void> {
    this.deaths += 1;
    this.life.die();
    const stored = Y.snapshot(await this.replay());
    for (const [number, page] of this.pages.entries()) {
      if (page.saved !== undefined && !Y.snapshotContainsUpdate(stored, page.saved)) {
        this.faults.push(`page ${number} was told that something is saved that is not`);
      }
      page.crash();
    }
    this.noteLife();
    this.life = new ServerLife(this.store, this.chance, this.variant);
  }

  private noteLife(): void {
    this.faults.push(...this.life.faults.map((fault) => `in the server: ${String(fault)}`));
  }

  private retry(): void {
    for (const room of this.life.rooms.open()) room.retry();
  }

  private async replay(): Promise<Y.Doc> {
    const doc = new Y.Doc();
    for (const { update } of (await this.store.log.load(this.key)).rows) {
      Y.applyUpdate(doc, update);
    }
    return doc;
  }

  private freshClient(): number {
    this.clients += 1;
    return this.clients * 1_000 + this.chance.below(1_000);
  }
}

/** All that a document knows: whom it heard, what is deleted, what it holds, and what is stuck. */
export function stateOf(doc: Y.Doc): string {
  const heard = Buffer.from(Y.encodeSnapshot(Y.snapshot(doc))).toString("base64");
  const isStuck = doc.store.pendingStructs !== null || doc.store.pendingDs !== null;
  const held = [
    doc.getArray("order").toJSON(),
    doc.getText("words").toJSON(),
    Object.entries(doc.getMap("keys").toJSON()).sort(([a], [b]) => (a < b ? -1 : 1)),
  ];
  return JSON.stringify([heard, isStuck, held]);
}
