/**
 * A page without a browser on a real socket: one document that is edited wherever its line leads,
 * offline too, and comes back after every end. All that it says and hears goes into the history.
 */
import type { DocumentName } from "@halflap/board/documents";
import { step1Frame, step2Frame, updateFrame } from "@halflap/server/frames";
import type { BoardId } from "@halflap/wire/api";
import {
  decodeDecided,
  decodeRefused,
  decodeSaved,
  refusedMessage,
  savedMessage,
} from "@halflap/wire/messages";
import * as decoding from "lib0/decoding";
import { WebSocket } from "ws";
import * as Y from "yjs";
import type { Visitor } from "../support/browser-session.ts";
import type { Chance } from "../support/seeded.ts";
import { deletionName, editName, editsIn } from "./edits-in.ts";
import type { History } from "./history.ts";
import { deleteSomething, OwnDeletions } from "./own-deletions.ts";

const network = "network";
/** Refusals that a page may meet that only has what others wrote. */
const othersWork: ReadonlySet<string> = new Set(["not-yours", "foreign-client"]);
const comeAgainMs = 100;
let sockets = 0;

export type PageOptions = {
  /** Its own in the whole run. */
  readonly name: string;
  readonly board: BoardId;
  readonly document: DocumentName;
  readonly canWrite: boolean;
  readonly history: History;
  /** The page's browser, at a node. */
  readonly visitorAt: (node: number) => Visitor;
  /** Where to try next after a line ended. */
  readonly pickNode: () => number;
  /** What it does wrongly, for a check that must catch it. */
  readonly wrongly?: "makes edits anew that it did not hear of" | undefined;
};

export class Page {
  doc = new Y.Doc();
  readonly options: PageOptions;
  private socket: WebSocket | undefined;
  private socketNumber = 0;
  private node = 0;
  private sent = 0;
  private decided = 0;
  private hasAnswered = false;
  private isOver = false;
  private edits = 0;
  private deletions = 0;
  /** Client ids that it wrote under, the present one and those before a reload. */
  private readonly own = new Set<number>();
  private clocks: ReadonlyMap<number, number> = new Map();
  /** Its edits that it was not told to be saved. */
  private readonly unheard = new Map<string, Place>();
  private readonly undeleted = new OwnDeletions();

  constructor(options: PageOptions) {
    this.options = options;
    this.follow();
  }

  /** Whether all that it wrote is said to be on the disk, and nothing is on its way to be said. */
  get isSettled(): boolean {
    const held = Y.decodeStateVector(Y.encodeStateVector(this.doc));
    const isSaved = [...this.own].every(
      (client) => (held.get(client) ?? 0) <= (this.clocks.get(client) ?? 0),
    );
    const isTold = this.decided === this.sent && this.undeleted.count === 0;
    return this.isOnline && this.hasAnswered && isTold && isSaved;
  }

  get isOnline(): boolean {
    return this.socket?.readyState === WebSocket.OPEN;
  }

  /** At which node it is, or was last. */
  get place(): number {
    return this.node;
  }

  /** Goes to a node, and somewhere again after each end of the line. */
  open(node: number): void {
    const { board, document, visitorAt } = this.options;
    this.leave();
    this.node = node;
    sockets += 1;
    this.socketNumber = sockets;
    const { address, cookie } = visitorAt(node);
    const url = `${address.replace("http", "ws")}/sync/${board}/${document}?saved=1`;
    const socket = new WebSocket(url, { headers: { origin: address, cookie: cookie ?? "" } });
    socket.binaryType = "arraybuffer";
    this.socket = socket;
    const isOurs = () => this.socket === socket;
    socket.on("error", () => undefined); // its end is told as well
    socket.on("open", () => {
      if (isOurs()) this.say(step1Frame(Y.encodeStateVector(this.doc)));
    });
    socket.on("message", (bytes: ArrayBuffer) => {
      if (isOurs()) this.hear(new Uint8Array(bytes));
    });
    socket.on("close", (code) => {
      this.note({ kind: "closed", code });
      if (isOurs()) this.comeAgain();
    });
  }

  /** The line breaks; it comes again somewhere. */
  cut(): void {
    this.socket?.terminate();
  }

  /** Loads again with what the browser kept, under another client id. */
  reload(): void {
    this.startAfresh(Y.encodeStateAsUpdate(this.doc));
    this.open(this.options.pickNode());
  }

  /** One edit, of which the name comes back. */
  edit(chance: Chance): string {
    const { name, document, history } = this.options;
    this.edits += 1;
    const edit = editName(name, this.edits);
    const client = this.doc.clientID;
    this.own.add(client);
    this.doc.once("afterTransaction", () => {
      const end = Y.getState(this.doc.store, client);
      history.note({ kind: "edit", page: name, document, edit, client, end });
      this.unheard.set(edit, { client, end });
    });
    this.doc.transact(() => {
      const order = this.doc.getArray<string>("order");
      const words = this.doc.getText("words");
      order.insert(chance.below(order.length + 1), [edit]);
      const kind = chance.below(3);
      if (kind === 0) words.insert(chance.below(words.length + 1), `${edit} `);
      else if (kind === 1 && words.length > 2) words.delete(chance.below(words.length - 1), 1);
      else this.doc.getMap("keys").set(`k${chance.below(4)}`, edit);
    });
    return edit;
  }

  /** Deletes something and writes nothing; not if there is nothing left to delete. */
  remove(chance: Chance): void {
    const { name, document, history } = this.options;
    const deleted = deleteSomething(this.doc, chance);
    if (deleted.length === 0) return;
    this.deletions += 1;
    const deletion = deletionName(name, this.deletions);
    history.note({ kind: "deletion", page: name, document, deletion, deleted });
    const { clientID: client } = this.doc;
    const frame = this.isOnline ? this.sent : undefined;
    this.undeleted.add(deletion, { client, end: Y.getState(this.doc.store, client), frame });
  }

  /** Leaves for good. */
  end(): void {
    this.isOver = true;
    this.leave();
  }

  private startAfresh(kept?: Uint8Array): void {
    this.leave();
    this.doc = new Y.Doc();
    if (kept !== undefined) Y.applyUpdate(this.doc, kept, network);
    this.follow();
  }

  /** As the page does: what it only has of others' it loads anew, without a word. */
  private hearRefused(why: string): void {
    const hasOwn = this.unheard.size + this.undeleted.count > 0;
    this.hasAnswered = false;
    this.note({ kind: "refused", why, hasOwn });
    if (why === "others-first") this.undeleted.onLeftAside();
    else this.undeleted.onUnsent();
    if (hasOwn || !othersWork.has(why)) return;
    this.startAfresh();
    this.open(this.node);
  }

  private leave(): void {
    const { socket } = this;
    this.socket = undefined;
    socket?.terminate();
    this.undeleted.onUnsent();
    this.sent = 0;
    this.decided = 0;
    this.hasAnswered = false;
  }

  private comeAgain(): void {
    this.leave();
    setTimeout(() => {
      if (!this.isOver && this.socket === undefined) this.open(this.options.pickNode());
    }, comeAgainMs);
  }

  private follow(): void {
    this.doc.on("update", (update: Uint8Array, origin: unknown) => {
      if (origin !== network) this.sendUpdate(updateFrame(update), update);
    });
  }

  private sendUpdate(frame: Uint8Array, update: Uint8Array): void {
    if (!this.isOnline) return;
    this.sent += 1;
    this.note({ kind: "sent", edits: editsIn(update) });
    this.say(frame);
  }

  private say(frame: Uint8Array): void {
    if (this.isOnline) this.socket?.send(frame);
  }

  private hear(bytes: Uint8Array): void {
    const decoder = decoding.createDecoder(bytes);
    const kind = decoding.readVarUint(decoder);
    if (kind === refusedMessage) this.hearRefused(decodeRefused(decoder));
    if (kind === savedMessage) this.hearSaved(decodeSaved(decoder), decodeDecided(decoder));
    if (kind !== 0) {
      this.note({ kind: "received", frame: String(kind), bytes: bytes.length });
      return;
    }
    const step = decoding.readVarUint(decoder);
    const content = decoding.readVarUint8Array(decoder);
    this.note({ kind: "received", frame: `0.${step}`, bytes: bytes.length });
    if (step === 0) this.answer(content);
    else Y.applyUpdate(this.doc, content, network);
  }

  private answer(has: Uint8Array): void {
    if (this.options.wrongly !== undefined) this.makeAnew(has);
    const lacks = Y.encodeStateAsUpdate(this.doc, has);
    this.sendUpdate(step2Frame(lacks), lacks);
    this.undeleted.onAnswered(this.sent);
    this.hasAnswered = true;
  }

  /** The wrong page takes what the server lacks for lost, and writes it again. */
  private makeAnew(has: Uint8Array): void {
    const theirs = Y.decodeStateVector(has);
    const lost = [...this.unheard]
      .filter(([, place]) => !reaches(theirs, place))
      .map(([edit]) => edit);
    this.unheard.clear();
    if (lost.length > 0) this.doc.getArray<string>("order").push(lost);
  }

  private hearSaved(vector: Uint8Array, decided: number): void {
    const { document } = this.options;
    const clocks = Y.decodeStateVector(vector);
    this.decided = decided;
    this.clocks = clocks;
    for (const [edit, place] of this.unheard) {
      if (reaches(clocks, place)) this.unheard.delete(edit);
    }
    this.note({ kind: "saved", document, clocks, decided });
    for (const deletion of this.undeleted.onSaved(clocks, decided)) {
      this.note({ kind: "deletion-saved", deletion });
    }
  }

  private note(event: PageEvent): void {
    const { history, name } = this.options;
    history.note({ ...event, page: name, node: this.node, socket: this.socketNumber });
  }
}

/** Where an edit lies: below this clock of the client. */
type Place = { readonly client: number; readonly end: number };

function reaches(clocks: ReadonlyMap<number, number>, { client, end }: Place): boolean {
  return end <= (clocks.get(client) ?? 0);
}

type PageEvent =
  | { readonly kind: "closed"; readonly code: number }
  | { readonly kind: "sent"; readonly edits: readonly string[] }
  | { readonly kind: "refused"; readonly why: string; readonly hasOwn: boolean }
  | { readonly kind: "deletion-saved"; readonly deletion: string }
  | { readonly kind: "received"; readonly frame: string; readonly bytes: number }
  | {
      readonly kind: "saved";
      readonly document: DocumentName;
      readonly clocks: ReadonlyMap<number, number>;
      readonly decided: number;
    };
