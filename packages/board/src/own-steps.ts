/**
 * The own edits of one document as steps to take back and bring again, each alone, and never
 * through what somebody else has done since.
 */
import * as Y from "yjs";
import { itemNow, parentsOf } from "./brought-back.ts";
import { ownEdit } from "./documents.ts";
import { OthersChanges, placeOf } from "./others-changes.ts";

type Step = Y.UndoManager["undoStack"][number];
type Stack = "undo" | "redo";
type Added = { readonly stackItem: Step; readonly type: Stack };
/** What did not come back when a step was taken back, and when that step was made. */
type Spared = readonly { readonly ids: Step["deletions"]; readonly at: number }[];
/** Of a step: where its own word still stands. */
type Standing = { has(item: Y.Item, part: number): boolean };

export class OwnSteps {
  private readonly manager: Y.UndoManager;
  private readonly others: OthersChanges;
  /** When each step was made, as `OthersChanges` counts. */
  private readonly madeAt = new WeakMap<Step, number>();
  /** Of a step that takes back or makes again: what was spared in the one that it answers. */
  private readonly spared = new WeakMap<Step, Spared>();
  /** Of a step that was made again: what was spared when it was taken back before. */
  private readonly owed = new WeakMap<Step, Spared>();

  /** Follows the document from now on; `onStep` is told of each step, and which stack it is on. */
  constructor(doc: Y.Doc, onStep: (stack: Stack, isRedone: boolean) => void) {
    this.manager = new Y.UndoManager(doc, {
      trackedOrigins: new Set([ownEdit]),
      // An edit is a step, however quickly the next one follows, and where a clock is set back.
      captureTimeout: Number.NEGATIVE_INFINITY,
      captureTransaction: ({ changed }) => changed.size > 0,
    });
    const { manager } = this;
    this.others = new OthersChanges(
      doc,
      (origin) => origin === ownEdit || origin === manager,
      () => manager.undoStack.length + manager.redoStack.length > 0,
    );
    manager.on("stack-item-added", ({ stackItem, type }: Added) => {
      this.madeAt.set(stackItem, this.others.now);
      onStep(type, manager.redoing);
    });
  }

  /** Takes the last step back; false when nothing of it was left to be taken back. */
  undo(): boolean {
    return this.take("undo");
  }

  /** Makes the step again that was taken back last; false when nothing of it could be. */
  redo(): boolean {
    return this.take("redo");
  }

  /** Nothing that was taken back can be made again. */
  forgetUndone(): void {
    this.manager.clear(false, true);
  }

  close(): void {
    this.others.close();
    this.manager.destroy();
  }

  private take(kind: Stack): boolean {
    const { manager } = this;
    const [from, to] = kind === "undo" ? stacks : [...stacks].reverse();
    if (from === undefined || to === undefined) return false;
    const step = manager[from].at(-1);
    if (step === undefined) return false;
    const below = manager[from].slice(0, -1);
    if (this.isBuiltUpon(step)) {
      manager[from] = below;
      return false;
    }
    const standing = this.standing(step);
    const spared = this.spareOthers(step, standing);
    // Yjs goes on to the next step by itself where one changes nothing, past those of the other
    // documents. The rest is put where Yjs only looks up what the own steps deleted: what is not
    // there, though deleted, it takes for somebody else's last word.
    const looked = [...below, { ...step, deletions: this.beaten(step, standing) }];
    manager[from] = [step];
    manager[to].unshift(...looked);
    const count = manager[to].length;
    try {
      manager[kind]();
    } finally {
      manager[from] = below;
      manager[to].splice(0, looked.length);
    }
    const answer = manager[to][count - looked.length];
    if (answer === undefined) return false;
    this.spared.set(answer, spared);
    this.owed.set(answer, this.spared.get(step) ?? []);
    return true;
  }

  /** Whether the step made a list in which somebody else has put something since. */
  private isBuiltUpon({ insertions }: Step): boolean {
    let isBuiltUpon = false;
    this.eachItem(insertions, (item) => {
      const live = itemNow(item, this.manager.doc);
      if (live.deleted || !(live.content instanceof Y.ContentType)) return;
      const { type } = live.content;
      isBuiltUpon ||= type instanceof Y.Array && this.others.standsIn(type);
    });
    return isBuiltUpon;
  }

  /**
   * What the step put somewhere and what stands there to this day, with nothing of anybody else's
   * beside it.
   */
  private standing({ insertions }: Step): Standing {
    const places = new Map<unknown, Set<string>>();
    this.eachItem(insertions, (item) => {
      const live = itemNow(item, this.manager.doc);
      if (live.deleted) return;
      const here = places.get(live.parent) ?? new Set<string>();
      places.set(live.parent, here);
      for (let i = 0; i < live.length; i += 1) {
        if (isAlone(live, i)) here.add(placeOf(live, i));
      }
    });
    const has = (item: Y.Item, part: number) => {
      const parent = parentsOf(item, this.manager.doc).at(-1);
      return places.get(parent)?.has(placeOf(item, part)) === true;
    };
    return { has };
  }

  /**
   * What the step removed stays away where somebody else has changed that very thing since; but not
   * where the step's own word still stands: taken back with nothing in its place, it would leave a
   * hole that nobody wanted. Answers what stays away.
   */
  private spareOthers(step: Step, standing: Standing): Spared {
    const removed = { ids: step.deletions, at: this.madeAt.get(step) ?? 0 };
    const kept = Y.createDeleteSet();
    const spared = [removed, ...(this.owed.get(step) ?? [])].map(({ ids, at }) => {
      const away = Y.createDeleteSet();
      this.eachItem(ids, (item) => {
        for (let i = 0; i < item.length; i += 1) {
          const isAway = this.others.changedSince(item, i, at) && !standing.has(item, i);
          addTo(isAway ? away : kept, item.id.client, item.id.clock + i);
        }
      });
      return { ids: away, at };
    });
    step.deletions.clients = sorted(kept).clients;
    return spared.filter(({ ids }) => ids.clients.size > 0);
  }

  /** What stands in the entries that the step goes back in, behind what it goes back to. */
  private beaten({ deletions }: Step, standing: Standing): Step["deletions"] {
    const beaten = Y.createDeleteSet();
    this.eachItem(deletions, (item) => {
      if (item.parentSub === null || !standing.has(item, 0)) return;
      for (let next = item.right; next !== null; next = next.right) {
        for (let i = 0; i < next.length; i += 1) addTo(beaten, next.id.client, next.id.clock + i);
      }
    });
    return sorted(beaten);
  }

  private eachItem(set: Step["deletions"], see: (item: Y.Item) => void): void {
    this.manager.doc.transact((transaction) => {
      Y.iterateDeletedStructs(transaction, set, (struct) => {
        if (struct instanceof Y.Item) see(struct);
      });
    });
  }
}

const stacks = ["undoStack", "redoStack"] as const;

function addTo({ clients }: Step["deletions"], client: number, clock: number): void {
  const ranges = clients.get(client) ?? [];
  ranges.push({ clock, len: 1 });
  clients.set(client, ranges);
}

/** As Yjs looks things up in it. */
function sorted(set: Step["deletions"]): Step["deletions"] {
  for (const ranges of set.clients.values()) ranges.sort((a, b) => a.clock - b.clock);
  return set;
}

/** Whether a part of an item that stands is all of its entry, or of its value in a list. */
function isAlone(item: Y.Item, part: number): boolean {
  if (item.parentSub !== null) return true;
  let count = 0;
  for (let each = (item.parent as Y.AbstractType<unknown>)._start; each; each = each.right) {
    for (let i = 0; !each.deleted && i < each.length; i += 1) {
      if (placeOf(each, i) === placeOf(item, part)) count += 1;
    }
  }
  return count === 1;
}
