/**
 * A page of an undo schedule: four documents, a lane perhaps, undo over both, and a watch over what
 * an undo may not touch: whatever somebody else changed last.
 */
import type { Board, LaneId } from "@halflap/board/board";
import { copyOf } from "@halflap/board/copy";
import {
  type BoardDocuments,
  type DocumentName,
  documentNames,
  emptyDocuments,
  laneDocument,
} from "@halflap/board/documents";
import type { OwnUndo } from "@halflap/board/own-undo";
import { makeReader } from "@halflap/board/read";
import * as Y from "yjs";
import { kinds, randomEdit } from "../support/random-edits.ts";
import type { Chance } from "../support/seeded.ts";
import { differing, type Places, placesIn, placesOf } from "./undo-places.ts";

export type Message = { readonly name: DocumentName; readonly update: Uint8Array };
export type MakeUndo = () => OwnUndo;

const network = "network";

/** Kinds of edit that get into each other's way on a small board. */
const contested = [
  ...["setTitle", "addSection", "moveSection", "removeSection", "addBar", "moveBar", "removeBar"],
  ...["bringBackBar", "removeSlot", "bringBackSlot", "setChord", "changeVoice", "removeVoice"],
  ...["setAims", "setLimit", "silence", "unsilence", "placeGrip", "clearGrip"],
];

export class UndoPage {
  readonly inbox: Message[] = [];
  /** What it wrote and could not send yet. */
  readonly outbox: Message[] = [];
  readonly faults: string[] = [];
  isOnline = true;
  docs: BoardDocuments = emptyDocuments();
  lane: LaneId | undefined;
  /** How often taking back, or making again, changed something. */
  taken = 0;
  private undo: OwnUndo;
  private read: () => Board = () => makeReader(this.docs)();
  /** By document and place: whether somebody else changed it last. */
  private readonly isOthers = new Map<string, boolean>();
  private readonly places = new Map<DocumentName, Map<string, Places>>();
  private readonly elsewhere = emptyDocuments();
  private isTaking = false;
  private readonly makeUndo: MakeUndo;

  constructor(start: BoardDocuments, client: number, makeUndo: MakeUndo) {
    this.makeUndo = makeUndo;
    this.undo = makeUndo();
    this.open(start, client);
  }

  /** Loads the page again with what it had: under another client id, with nothing to undo. */
  reload(client: number): void {
    this.undo.close();
    this.undo = this.makeUndo();
    for (const [place, isOthers] of [...this.isOthers]) {
      if (!isOthers) this.isOthers.delete(place);
    }
    this.open(this.docs, client);
  }

  /** Takes a lane, or gives up the one it has; its steps go with it. */
  play(lane: LaneId | undefined): void {
    if (this.lane !== undefined) this.undo.leave(this.docs[laneDocument(this.lane)]);
    this.lane = lane;
    if (lane !== undefined) this.undo.follow(this.docs[laneDocument(lane)]);
  }

  /** One edit of a random kind, of the chart or the own lane. */
  edit(chance: Chance, makeId: () => string): void {
    const own = this.lane === undefined ? [] : [laneDocument(this.lane)];
    const mine: readonly DocumentName[] = ["board", ...own];
    // Edits of a lane that is not its own fall into a document that nobody sees.
    const docs = { ...this.elsewhere, ...Object.fromEntries(mine.map((n) => [n, this.docs[n]])) };
    const moment = { docs, board: this.read(), chance, makeId };
    if (chance.happens(0.4)) randomEdit(moment);
    else kinds[chance.pick(contested)]?.(moment);
  }

  /** Takes back, or makes again; whatever that changes is watched. */
  take(way: "undo" | "redo"): void {
    this.isTaking = true;
    const before = this.faults.length;
    this.undo[way]();
    this.isTaking = false;
    if (this.faults.length > before) this.faults.push(`by ${way}`);
  }

  /** An edit, taken back at once and made again: the board is as before, and as after. */
  editAndTakeBack(chance: Chance, makeId: () => string): void {
    const steps = () => this.undo.counts().done;
    const [stepsBefore, before] = [steps(), this.copy()];
    this.edit(chance, makeId);
    const [made, after] = [steps() - stepsBefore, this.copy()];
    for (let left = made; left > 0; left -= 1) this.take("undo");
    if (this.copy() !== before) this.faults.push("an edit taken back at once leaves something");
    for (let left = made; left > 0; left -= 1) this.take("redo");
    if (this.copy() !== after) this.faults.push("an edit made again is another");
  }

  hear({ name, update }: Message): void {
    Y.applyUpdate(this.docs[name], update, network);
  }

  board(): Board {
    return this.read();
  }

  /** All of the board's music as text. */
  copy(): string {
    return JSON.stringify(copyOf(this.docs));
  }

  private open(from: BoardDocuments, client: number): void {
    const docs = emptyDocuments();
    for (const name of documentNames) {
      Y.applyUpdate(docs[name], Y.encodeStateAsUpdate(from[name]), network);
      docs[name].clientID = client;
    }
    this.docs = docs;
    this.read = makeReader(docs);
    this.read(); // from here on the documents know what kind each of their types is
    for (const name of documentNames) this.watch(name);
    this.undo.follow(docs.board);
    if (this.lane !== undefined) this.undo.follow(docs[laneDocument(this.lane)]);
  }

  private watch(name: DocumentName): void {
    const doc = this.docs[name];
    this.places.set(name, placesOf(doc));
    doc.on("update", (update: Uint8Array, origin: unknown) => {
      if (origin !== network) this.outbox.push({ name, update });
    });
    doc.on("afterTransaction", (transaction: Y.Transaction) => {
      if (transaction.changed.size > 0) this.look(name, transaction);
    });
  }

  private look(name: DocumentName, transaction: Y.Transaction): void {
    const doc = this.docs[name];
    const isOthers = transaction.origin === network;
    const isWatched = this.isTaking && !isOthers;
    if (isWatched) this.lookAtOwn(name, doc, transaction);
    for (const [root, type] of doc.share) {
      if (!transaction.changedParentTypes.has(type)) continue;
      const before = this.places.get(name)?.get(root) ?? new Map<string, string>();
      const after = placesIn(root, type);
      this.places.get(name)?.set(root, after);
      for (const place of differing(before, after)) {
        const key = `${name}/${place}`;
        if (isWatched && this.isOthers.get(key) === true) {
          const change = `${before.get(place)} to ${after.get(place)}`;
          this.faults.push(`${key}, changed last by another, goes from ${change}`);
        }
        this.isOthers.set(key, isOthers);
      }
    }
  }

  private lookAtOwn(name: DocumentName, doc: Y.Doc, { deleteSet }: Y.Transaction): void {
    this.taken += 1;
    const isMine =
      name === "board" || (this.lane !== undefined && name === laneDocument(this.lane));
    if (!isMine) this.faults.push(`it changes ${name}, which is not its own`);
    if ([...deleteSet.clients.keys()].some((client) => client !== doc.clientID)) {
      this.faults.push(`it deletes in ${name} what others wrote`);
    }
  }
}
