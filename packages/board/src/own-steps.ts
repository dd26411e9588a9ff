/**
 * The own edits of one document as steps to take back and bring again, each alone, and never
 * through what somebody else has done since.
 */
import * as Y from "yjs";
import { ownEdit } from "./documents.ts";
import { OthersChanges } from "./others-changes.ts";

type Step = Y.UndoManager["undoStack"][number];
type Stack = "undo" | "redo";
type Added = { readonly stackItem: Step; readonly type: Stack };
type Range = Step["deletions"]["clients"] extends Map<number, (infer R)[]> ? R : never;

export class OwnSteps {
  private readonly manager: Y.UndoManager;
  private readonly others: OthersChanges;
  /** When each step was made, as `OthersChanges` counts. */
  private readonly madeAt = new WeakMap<Step, number>();

  /** Follows the document from now on; `onStep` is told of each step, and which stack it is on. */
  constructor(doc: Y.Doc, onStep: (stack: Stack, isRedone: boolean) => void) {
    this.manager = new Y.UndoManager(doc, {
      trackedOrigins: new Set([ownEdit]),
      captureTimeout: 0, // an edit is a step, however quickly the next one follows
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
    this.spareOthers(step);
    // Yjs goes on to the next step by itself where one changes nothing, past those of the other
    // documents. The rest is put where Yjs only looks up what the own steps deleted.
    manager[from] = [step];
    manager[to].unshift(...below);
    const done = kind === "undo" ? manager.undo() : manager.redo();
    manager[to].splice(0, below.length);
    manager[from] = below;
    return done !== null;
  }

  /** Whether the step made a list in which somebody else has put something since. */
  private isBuiltUpon({ insertions }: Step): boolean {
    let isBuiltUpon = false;
    this.eachItem(insertions, (item) => {
      const live = lastOf(item, this.manager.doc);
      if (live.deleted || !(live.content instanceof Y.ContentType)) return;
      const { type } = live.content;
      isBuiltUpon ||= type instanceof Y.Array && this.others.standsIn(type);
    });
    return isBuiltUpon;
  }

  /** What the step removed stays away where somebody else has changed that very thing since. */
  private spareOthers(step: Step): void {
    const at = this.madeAt.get(step) ?? 0;
    const kept = new Map<number, Range[]>();
    let spared = 0;
    this.eachItem(step.deletions, (item) => {
      for (let i = 0; i < item.length; i += 1) {
        if (this.others.changedSince(item, i, at)) {
          spared += 1;
          continue;
        }
        const ranges = kept.get(item.id.client) ?? [];
        ranges.push({ clock: item.id.clock + i, len: 1 });
        kept.set(item.id.client, ranges);
      }
    });
    if (spared > 0) step.deletions.clients = kept;
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

/** A removed thing that was brought back is another item: the last one of them. */
function lastOf(item: Y.Item, doc: Y.Doc): Y.Item {
  let last = item;
  while (last.redone !== null) {
    const next = Y.getItem(doc.store, last.redone);
    if (!(next instanceof Y.Item)) return last;
    last = next;
  }
  return last;
}
