/**
 * The rooms in memory: loaded once however many come at once, and let go when the last one leaves.
 */
import type { BoardId } from "@halflap/wire/api";
import { closeCode } from "@halflap/wire/messages";
import type { DocumentKey, StoredDocument, UpdateLog } from "../store/log-port.ts";
import type { People, Standing } from "../store/people-port.ts";
import type { Crossed, Crossing } from "../wake/crossing-port.ts";
import { nameOf } from "./batch.ts";
import { BoardBytes } from "./board-bytes.ts";
import { rowsBeforeCompaction } from "./compaction.ts";
import { DocumentReader, type ReadDocument, updatesOf } from "./document-reader.ts";
import { foldingHere } from "./folding-here.ts";
import { type Folding, Unreadable } from "./folding-port.ts";
import { LateBytes } from "./late-updates.ts";
import { Quarantine, SetAside } from "./quarantine.ts";
import { Room } from "./room.ts";
import type { SaveLoop } from "./save-loop.ts";
import { Searches } from "./searches.ts";
import { Surroundings } from "./surroundings.ts";

export type RoomsPorts = {
  readonly log: UpdateLog;
  readonly people: People;
  readonly saveLoop: SaveLoop;
  /** Told when a document can't be compacted: it stays as it is. */
  readonly onFault: (fault: unknown) => void;
  /** Told when other nodes seem to be ahead in a document; undefined where no other node writes. */
  readonly onBehind?: ((key: DocumentKey) => void) | undefined;
  /** Undefined where there are no other nodes. */
  readonly crossing?: Pick<Crossing, "cross" | "time"> | undefined;
  /** Where long documents are merged and folded; undefined = in this thread. */
  readonly folding?: Folding | undefined;
  /** Where documents are told that can't be read; undefined = nowhere but here. */
  readonly quarantine?: Quarantine | undefined;
};

/** A room that stays in memory until `release` is called, once. */
export type Lease = { readonly room: Room; release(): void };

/** What was read of a board, none when it was gone, by the reading of that number. */
type Reading = { readonly reading: number; readonly standing: Standing | undefined };

type Entry = {
  readonly opening: Promise<Room>;
  /** Once it is open. */
  room: Room | undefined;
  readonly key: DocumentKey;
  leases: number;
  /** How many more rows there are in the log than the room counts: those that came to it as one. */
  merged: number;
};

/** Documents remembered whose rows could not be folded. */
const stubbornMax = 1_000;

/** One for the process: a document has one room at a time. */
export class Rooms {
  private readonly entries = new Map<string, Entry>();
  private readonly bytes = new BoardBytes();
  private readonly shared = { lateBytes: new LateBytes(), searches: new Searches() };
  private readonly standings = new Map<BoardId, Reading>();
  private readings = 0;
  private readonly ports: RoomsPorts;
  private readonly folding: Folding;
  private readonly quarantine: Quarantine;
  private readonly reader: DocumentReader;
  /** Documents that could not be folded, with the number of rows from which it is tried again. */
  private readonly stubborn = new Map<string, number>();
  private isStopping = false;

  constructor(ports: RoomsPorts) {
    const { log, onFault, folding = foldingHere } = ports;
    const onSetAside = (_key: DocumentKey, fault: unknown) => onFault(fault);
    const alone = () => new Quarantine({ clock: () => performance.now(), onSetAside });
    this.ports = ports;
    this.folding = folding;
    this.quarantine = ports.quarantine ?? alone();
    this.reader = new DocumentReader({ log, folding, quarantine: this.quarantine });
  }

  /**
   * The room of a document; rejects when the store can't be read, and with SetAside when this
   * document can't. The caller knows that the board exists.
   */
  async lease(key: DocumentKey): Promise<Lease> {
    // It may still be open, for whoever was sent away and whose line has not ended yet.
    if (this.quarantine.holds(key)) throw new SetAside();
    const name = nameOf(key);
    const entry = this.entries.get(name) ?? this.enter(key, name);
    entry.leases += 1;
    const release = () => {
      entry.leases -= 1;
      void this.letGo(name, entry);
    };
    try {
      return { room: await entry.opening, release };
    } catch (fault) {
      release();
      throw fault;
    }
  }

  /** How many documents are in memory. */
  get size(): number {
    return this.entries.size;
  }

  /** The rooms that are open by now, of one board or of all; nobody waits for one that is not. */
  open(board?: BoardId): readonly Room[] {
    return [...this.entries.values()].flatMap(({ key, room }) =>
      room !== undefined && (board === undefined || key.board === board) ? [room] : [],
    );
  }

  /** The room of a document that is open or about to be; undefined for all others. */
  async opened(key: DocumentKey): Promise<Room | undefined> {
    return this.entries.get(nameOf(key))?.opening.catch(() => undefined); // told to who leases it
  }

  /**
   * Takes a frame that another node passed, if its document is open here. One that is still opening
   * reads the log anyway, and asks who is present.
   */
  async hear({ key, frame }: Crossed): Promise<void> {
    this.entries.get(nameOf(key))?.room?.hear(frame);
  }

  /** Folds the logs of open documents that have grown long. */
  async compactLong(): Promise<void> {
    for (const room of this.open()) {
      const entry = this.entries.get(nameOf(room.key));
      if (entry === undefined || !this.isLong(entry, room)) continue;
      if (!(await this.compact(room.key))) continue;
      await room.loadAnew(() => this.read(room.key)).catch(this.ports.onFault);
    }
  }

  /** A document as it stands in the log, for a room that takes it anew; rejects as `look` does. */
  async read(key: DocumentKey): Promise<StoredDocument> {
    const { stored, rows } = await this.look(key);
    const entry = this.entries.get(nameOf(key));
    if (entry !== undefined) entry.merged = rows - stored.rows.length;
    return stored;
  }

  /**
   * A document as it stands in the log, as one row. When it can't be read, whoever sits in it is
   * sent away and this rejects with SetAside.
   */
  async look(key: DocumentKey): Promise<ReadDocument> {
    try {
      return await this.reader.read(key);
    } catch (fault) {
      if (fault instanceof SetAside) await this.sendAway(key);
      throw fault;
    }
  }

  /** Sets a document aside that is open, and sends away whoever sits in it. */
  async setAside(key: DocumentKey, fault: unknown): Promise<void> {
    this.quarantine.enter(key, fault);
    await this.sendAway(key);
  }

  /** From here on nothing more is folded: the store is about to close. */
  stop(): void {
    this.isStopping = true;
  }

  /**
   * Reads members and owners again after a change, so that open rooms follow from the next message
   * on. Of two readings at once the one that was asked for later holds.
   */
  async refresh(board: BoardId): Promise<Standing | undefined> {
    this.readings += 1;
    const reading = this.readings;
    const standing = await this.ports.people.standing(board);
    const isOld = reading < (this.standings.get(board)?.reading ?? 0);
    if (!isOld && this.isOpen(board)) this.standings.set(board, { reading, standing });
    return standing;
  }

  private isOpen(board: BoardId): boolean {
    return [...this.entries.values()].some(({ key }) => key.board === board);
  }

  private enter(key: DocumentKey, name: string): Entry {
    const reading = this.reader.read(key);
    const opening = this.load(key, reading);
    const entry: Entry = { opening, room: undefined, key, leases: 0, merged: 0 };
    this.entries.set(name, entry);
    opening.then(
      (room) => {
        entry.room = room;
      },
      () => undefined, // told to whoever leases it
    );
    reading.then(
      ({ stored, rows }) => {
        entry.merged = rows - stored.rows.length;
      },
      () => undefined, // told by the opening
    );
    return entry;
  }

  private async load(key: DocumentKey, reading: ReturnType<DocumentReader["read"]>): Promise<Room> {
    const [{ stored }] = await Promise.all([reading, this.refresh(key.board)]);
    const { saveLoop, onBehind, people } = this.ports;
    const { board } = key;
    const standing = (of: BoardId) => this.standings.get(of)?.standing;
    const { bytes, shared, ports } = this;
    const around = { saveLoop, bytes, ...shared, standing, crossing: ports.crossing };
    const room = new Room(key, stored, new Surroundings(key, around, onBehind));
    await this.bytes.open(
      key,
      () => room.held.size,
      () => people.documentBytes(board),
    );
    return room;
  }

  /**
   * Leaves memory only when nobody sits in it, nobody is about to, and nothing is on its way to the
   * disk.
   */
  private async letGo(name: string, entry: Entry): Promise<void> {
    const room = await entry.opening.catch(() => undefined);
    // Somebody may have come, written and gone again meanwhile.
    while (entry.leases === 0 && room?.held.isSaving) await this.ports.saveLoop.flush();
    if (entry.leases > 0 || this.entries.get(name) !== entry) return;
    this.entries.delete(name);
    this.bytes.close(entry.key);
    if (!this.isOpen(entry.key.board)) this.standings.delete(entry.key.board);
    if (room !== undefined && this.isLong(entry, room)) await this.compact(entry.key);
  }

  private async sendAway(key: DocumentKey): Promise<void> {
    const room = await this.entries.get(nameOf(key))?.opening.catch(() => undefined);
    for (const seat of [...(room?.seats ?? [])]) {
      room?.leave(seat);
      seat.close(closeCode.unreadable, "the server can't read this document");
    }
  }

  private isLong(entry: Entry, room: Room): boolean {
    const rows = entry.merged + room.held.bytes.rows;
    return rows > (this.stubborn.get(nameOf(entry.key)) ?? rowsBeforeCompaction);
  }

  /** Answers whether the log is shorter now. */
  private async compact(key: DocumentKey): Promise<boolean> {
    if (this.isStopping) return false;
    let rows = 0;
    try {
      const stored = await this.ports.log.load(key);
      const last = stored.rows.at(-1)?.id;
      rows = stored.rows.length;
      if (last === undefined || rows < 2) return false;
      const snapshot = await this.folding.fold(updatesOf(stored.rows));
      if (this.isStopping) return false;
      return await this.ports.log.compact(key, last, snapshot);
    } catch (fault) {
      if (!this.isStopping) this.ports.onFault(fault);
      if (fault instanceof Unreadable) this.letBe(key, 2 * rows);
      return false;
    }
  }

  /** What can't be folded costs as much at each try: it is left until it has twice as many rows. */
  private letBe(key: DocumentKey, rows: number): void {
    this.stubborn.set(nameOf(key), rows);
    const [oldest] = this.stubborn.keys();
    if (this.stubborn.size > stubbornMax && oldest !== undefined) this.stubborn.delete(oldest);
  }
}
