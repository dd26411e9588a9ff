/**
 * A document as a room holds it: what of it is on disk, what is on its way there, and whose the
 * client ids in it are.
 */
import type { MemberId } from "@halflap/board/board";
import { clientsPerDocumentMax } from "@halflap/wire/limits";
import type { Binding, NewRow, RowId, StoredDocument, StoredRow } from "../store/log-port.ts";
import { type DecodedUpdate, decodeUpdate } from "./decoded-update.ts";
import { DocumentBytes } from "./document-bytes.ts";
import { KnownState } from "./known-state.ts";
import { LogPosition } from "./log-position.ts";

type Departing = Pick<NewRow, "update" | "bindings"> & { readonly parts: DecodedUpdate };
type Sent = { readonly parts: DecodedUpdate; readonly isHeard: boolean };
type Failed = {
  readonly isHeard: boolean;
  readonly isForeign: boolean;
  /** Whether rows that fell with it have been taken note of before. */
  readonly isFurther: boolean;
};

export class HeldDocument {
  /** What is on disk, as bytes. */
  bytes: DocumentBytes;
  /** What is on disk and on its way there, as clocks and deletions. */
  known: KnownState;
  /** What is on disk, likewise. */
  private readonly durable = new KnownState();
  private onTheWay = 0;
  /** Updates that were passed on and are not on disk yet. */
  readonly underway = new Set<Uint8Array>();
  /** How many rows on their way were not passed on. */
  private unheard = 0;
  /** How far each author got in what another node passed on and the log has not told. */
  private readonly crossed = new Map<number, number>();
  private readonly owners: Map<number, MemberId>;
  /** The client ids whose owner is on disk too. */
  private readonly bound: Set<number>;
  /**
   * Whose presence named a client id first. It stays when the socket ends: a member who is offline
   * for a while must not find that somebody took the id under which they went on writing.
   */
  private readonly named = new Map<number, MemberId>();
  /** Updates stored while the log is read again; undefined while it is not. */
  private meanwhile: Uint8Array[] | undefined;
  private reloading: Promise<unknown> = Promise.resolve();
  /** How far the log was read; undefined where nobody else writes to it. */
  readonly position: LogPosition | undefined;

  /** Of a log that other nodes write to as well, or not. */
  constructor(stored: StoredDocument, isShared = false) {
    this.position = isShared ? new LogPosition(stored.head) : undefined;
    this.bytes = new DocumentBytes(stored.rows.map(({ update }) => update));
    this.owners = new Map(stored.bindings.map(({ client, member }) => [client, member]));
    this.bound = new Set(this.owners.keys());
    for (const { update } of stored.rows) this.durable.add(ownParts(update));
    this.known = this.durable.copy();
  }

  /** Whether rows are still on their way to the disk. */
  get isSaving(): boolean {
    return this.onTheWay > 0;
  }

  /** What is on disk, in the encoding of sync step 1. */
  durableVector(): Uint8Array {
    return this.durable.stateVector();
  }

  /**
   * Takes note of an update that goes on its way. Answers whether it may be passed on before it
   * arrives: where that is wanted, the disk knows its authors, and nothing waits that it may build
   * on.
   */
  begin({ update, parts, bindings }: Departing, isWanted: boolean): boolean {
    this.known.add(parts);
    this.onTheWay += 1;
    const isHeard = isWanted && bindings.length === 0 && this.unheard === 0;
    if (isHeard) this.underway.add(update);
    else this.unheard += 1;
    return isHeard;
  }

  /** Takes note that it arrived; false when the log has told so before. */
  arrived({ update, bindings }: NewRow, { parts, isHeard }: Sent, row: RowId): boolean {
    this.end(update, isHeard);
    for (const { client } of bindings) this.bound.add(client);
    if (this.position?.add(row) === false) return false;
    this.keep(update, parts);
    return true;
  }

  /**
   * Takes note of an edit that another node passed on before the log has it. False when there is
   * nothing new in it, or it can't be read.
   */
  hearEarly(update: Uint8Array): boolean {
    const parts = decodeUpdate(update);
    if (parts === undefined) return false;
    let isNews = false;
    for (const [client, structs] of parts.structs) {
      const end = structs.at(-1)?.end ?? 0;
      if (end <= this.known.clockOf(client)) continue;
      this.crossed.set(client, Math.max(end, this.crossed.get(client) ?? 0));
      isNews = true;
    }
    return isNews;
  }

  /** Whether another node passed something on that the log has not told yet. */
  get isAwaiting(): boolean {
    for (const [client, clock] of this.crossed) {
      if (clock > this.known.clockOf(client)) return true;
      this.crossed.delete(client);
    }
    return false;
  }

  /** What the log has not told by now is taken for lost. */
  awaitNoLonger(): void {
    this.crossed.clear();
  }

  /** Takes a row as the log tells it; false when it is here already. */
  take({ id, update }: StoredRow): boolean {
    const parts = ownParts(update);
    if (this.position?.add(id) === false) return false;
    this.known.add(parts);
    this.keep(update, parts);
    return true;
  }

  /** Gives client ids to those who have them by the log, whatever was thought here. */
  bindAsStored(bindings: readonly Binding[]): void {
    for (const { client, member } of bindings) {
      this.owners.set(client, member);
      this.bound.add(client);
    }
  }

  /**
   * Takes note that it did not. Its bindings stay in memory, since the ids are the same member's
   * when the update comes again; unless one was foreign: whose it is, the log tells.
   */
  failed({ update, bindings }: NewRow, { isHeard, isForeign, isFurther }: Failed): void {
    this.end(update, isHeard);
    if (!isFurther) this.known = this.durable.copy(); // costs as much as the document is large
    if (!isForeign) return;
    for (const { client } of bindings) if (!this.bound.has(client)) this.owners.delete(client);
  }

  private end(update: Uint8Array, isHeard: boolean): void {
    this.onTheWay -= 1;
    if (isHeard) this.underway.delete(update);
    else this.unheard -= 1;
  }

  /** Whether the disk knows whose a client id is. */
  isBound(client: number): boolean {
    return this.bound.has(client);
  }

  /** Bytes on disk, at most. */
  get size(): number {
    return this.bytes.size;
  }

  /** Gives client ids to a member; answers the bindings that the disk lacks. */
  bind(clients: readonly number[], member: MemberId): readonly Binding[] {
    const fresh = clients.filter((client) => !this.bound.has(client));
    for (const client of fresh) this.owners.set(client, member);
    return fresh.map((client) => ({ client, member }));
  }

  /** Whose a client id is: by what was written under it, else by the presence that named it. */
  ownerOf(client: number): MemberId | undefined {
    return this.owners.get(client) ?? this.named.get(client);
  }

  /** Gives a client id that is nobody's to the member whose presence names it. */
  name(client: number, member: MemberId): void {
    if (this.ownerOf(client) !== undefined) return;
    this.named.set(client, member);
    const [oldest] = this.named.keys();
    if (this.named.size > clientsPerDocumentMax && oldest !== undefined) this.named.delete(oldest);
  }

  /**
   * Takes the document as it stands in the log after a compaction. Answers, as one update, what
   * other nodes wrote to it and was not here; undefined when there is nothing.
   */
  reload(read: () => Promise<StoredDocument>): Promise<Uint8Array | undefined> {
    const turn = this.reloading.then(() => this.reloadNow(read));
    this.reloading = turn.catch(() => undefined);
    return turn;
  }

  private async reloadNow(read: () => Promise<StoredDocument>): Promise<Uint8Array | undefined> {
    const meanwhile: Uint8Array[] = [];
    this.meanwhile = meanwhile;
    try {
      const { rows, bindings, head } = await read();
      const updates = rows.map(({ update }) => update);
      const isNews = this.position?.isBehind(head) === true;
      const news = isNews ? updates.map(ownParts) : [];
      const before = new Map(this.durable.clocks);
      this.bytes = new DocumentBytes([...updates, ...meanwhile]); // what is in both does no harm
      this.bindAsStored(bindings);
      for (const parts of news) {
        this.known.add(parts);
        this.durable.add(parts);
      }
      this.position?.reach(head);
      return isNews ? this.bytes.since(before) : undefined;
    } finally {
      this.meanwhile = undefined;
    }
  }

  private keep(update: Uint8Array, parts: DecodedUpdate): void {
    this.durable.add(parts);
    this.bytes.add(update);
    this.meanwhile?.push(update);
  }
}

/** The parts of an update that was checked before, or that the server made. */
export function ownParts(update: Uint8Array): DecodedUpdate {
  const parts = decodeUpdate(update);
  if (parts === undefined) throw new Error("a stored update can't be read");
  return parts;
}
