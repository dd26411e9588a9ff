/**
 * One seeded schedule of three pages that edit, take back and make again, lose their lines and come
 * back, load again, and hand lanes over. No undo may touch what another wrote, and at the end all
 * pages have the same valid board.
 */
import { type LaneId, laneIds } from "@halflap/board/board";
import { fillDocuments } from "@halflap/board/copy";
import { documentNames, emptyDocuments } from "@halflap/board/documents";
import { makeOwnUndo } from "@halflap/board/own-undo";
import * as Y from "yjs";
import { fullBoard } from "../support/full-board.ts";
import { type Chance, seeded } from "../support/seeded.ts";
import { faultsOf } from "../support/valid-board.ts";
import { type MakeUndo, UndoPage } from "./undo-page.ts";

export type UndoResult = {
  /** How often taking back, or making again, changed something. */
  readonly taken: number;
  readonly faults: readonly string[];
};

const pageCount = 3;
const stepCount = 40;
const barCount = 4;

const start = emptyDocuments();
fillDocuments(start, fullBoard(barCount));

/** Runs the schedule of a seed, the same way each time. */
export function runUndo(seed: number, makeUndo: MakeUndo = makeOwnUndo): UndoResult {
  const stage = new Stage(seeded(seed), makeUndo);
  for (let step = 0; step < stepCount; step += 1) stage.step();
  return stage.result();
}

class Stage {
  private readonly chance: Chance;
  private readonly pages: readonly UndoPage[];
  private clients = 0;
  private ids = 0;

  constructor(chance: Chance, makeUndo: MakeUndo) {
    this.chance = chance;
    this.pages = Array.from(
      { length: pageCount },
      () => new UndoPage(start, this.freshClient(), makeUndo),
    );
    for (const [number, lane] of laneIds.entries()) this.pages[number]?.play(lane);
  }

  step(): void {
    const { chance } = this;
    const page = chance.pick(this.pages);
    const dice = chance.below(100);
    if (dice < 40) page.edit(chance, this.freshId);
    else if (dice < 60) page.take("undo");
    else if (dice < 70) page.take("redo");
    else if (dice < 76) page.editAndTakeBack(chance, this.freshId);
    else if (dice < 84) page.isOnline = !page.isOnline;
    else if (dice < 86) page.reload(this.freshClient());
    else if (dice < 92) this.handOver(chance.pick(laneIds));
    for (const each of this.pages) {
      this.send(each);
      this.deliver(each, chance.below(6));
    }
  }

  result(): UndoResult {
    this.meet();
    const faults = this.pages.flatMap((page) => page.faults);
    const [first] = this.pages;
    if (first === undefined) throw new Error("a schedule has pages");
    faults.push(...faultsOf(first.board()));
    const [known, copy] = [stateOf(first), first.copy()];
    for (const page of this.pages) {
      if (stateOf(page) !== known || page.copy() !== copy) faults.push("two pages differ");
    }
    return { taken: this.pages.reduce((sum, { taken }) => sum + taken, 0), faults };
  }

  /** The server decides when all that the last owner wrote has arrived. */
  private handOver(lane: LaneId): void {
    this.meet();
    const last = this.pages.find((page) => page.lane === lane);
    const next = this.chance.pick(this.pages.filter((page) => page.lane !== lane));
    if (next.lane !== undefined) return;
    last?.play(undefined);
    next.play(lane);
  }

  /** Everybody is there, and hears everything. */
  private meet(): void {
    for (const page of this.pages) page.isOnline = true;
    for (const page of this.pages) this.send(page);
    for (const page of this.pages) this.deliver(page, Number.POSITIVE_INFINITY);
  }

  private send(page: UndoPage): void {
    if (!page.isOnline) return;
    for (const message of page.outbox.splice(0)) {
      for (const other of this.pages) if (other !== page) other.inbox.push(message);
    }
  }

  /** Hands over what has come, in any order, some of it twice. */
  private deliver(page: UndoPage, most: number): void {
    const { chance } = this;
    for (let left = most; page.isOnline && left > 0 && page.inbox.length > 0; left -= 1) {
      const place = chance.below(page.inbox.length);
      const [message] = chance.happens(0.1)
        ? page.inbox.slice(place, place + 1)
        : page.inbox.splice(place, 1);
      if (message !== undefined) page.hear(message);
    }
  }

  private freshClient(): number {
    this.clients += 1;
    return this.clients * 1_000 + this.chance.below(1_000);
  }

  private readonly freshId = (): string => {
    this.ids += 1;
    return `n${this.ids}`;
  };
}

/** Whom a page's documents heard, what is deleted in them, and whether something is stuck. */
function stateOf({ docs }: UndoPage): string {
  return documentNames
    .map((name) => {
      const doc = docs[name];
      const isStuck = doc.store.pendingStructs !== null || doc.store.pendingDs !== null;
      return `${isStuck} ${Buffer.from(Y.encodeSnapshot(Y.snapshot(doc))).toString("base64")}`;
    })
    .join();
}
