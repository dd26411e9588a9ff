/**
 * The rooms in memory: loaded once however many come at once, and let go when the last one leaves.
 */
import type { BoardId } from "@halflap/wire/api";
import type { DocumentKey, UpdateLog } from "../store/log-port.ts";
import type { People, Standing } from "../store/people-port.ts";
import { nameOf } from "./batch.ts";
import { compactionOf, rowsBeforeCompaction } from "./compaction.ts";
import { Room } from "./room.ts";
import type { SaveLoop } from "./save-loop.ts";

export type RoomsPorts = {
  readonly log: UpdateLog;
  readonly people: People;
  readonly saveLoop: SaveLoop;
  /** Told when a document can't be compacted: it stays as it is. */
  readonly onFault: (fault: unknown) => void;
  /** Told when other nodes seem to be ahead in a document; undefined where no other node writes. */
  readonly onBehind?: ((key: DocumentKey) => void) | undefined;
};

/** A room that stays in memory until `release` is called, once. */
export type Lease = { readonly room: Room; release(): void };

/** What was read of a board, none when it was gone, by the reading of that number. */
type Reading = { readonly reading: number; readonly standing: Standing | undefined };

type Entry = { readonly opening: Promise<Room>; readonly key: DocumentKey; leases: number };

/** One for the process: a document has one room at a time. */
export class Rooms {
  private readonly entries = new Map<string, Entry>();
  private readonly standings = new Map<BoardId, Reading>();
  private readings = 0;
  private readonly ports: RoomsPorts;
  private isStopping = false;

  constructor(ports: RoomsPorts) {
    this.ports = ports;
  }

  /**
   * The room of a document; rejects when the store can't be read. The caller knows that the board
   * exists.
   */
  async lease(key: DocumentKey): Promise<Lease> {
    const name = nameOf(key);
    const entry = this.entries.get(name) ?? { opening: this.load(key), key, leases: 0 };
    this.entries.set(name, entry);
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

  /** The open rooms, of one board or of all; one that can't be opened is none. */
  async open(board?: BoardId): Promise<readonly Room[]> {
    const wanted = [...this.entries.values()].filter(
      ({ key }) => board === undefined || key.board === board,
    );
    const rooms = await Promise.all(
      wanted.map(({ opening }) => opening.catch((): undefined => undefined)),
    );
    return rooms.filter((room) => room !== undefined);
  }

  /** Folds the logs of open documents that have grown long. */
  async compactLong(): Promise<void> {
    for (const room of await this.open()) {
      if (room.held.bytes.rows <= rowsBeforeCompaction || !(await this.compact(room.key))) continue;
      await room.loadAnew(() => this.ports.log.load(room.key));
    }
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

  private async load(key: DocumentKey): Promise<Room> {
    await this.refresh(key.board);
    const stored = await this.ports.log.load(key);
    const standing = () => this.standings.get(key.board)?.standing;
    const { saveLoop, onBehind } = this.ports;
    return new Room(key, stored, {
      saveLoop,
      memberNow: (id) => standing()?.members.find((member) => member.id === id),
      ownersNow: () => standing()?.owners ?? { upper: undefined, lower: undefined },
      onBehind: onBehind && (() => onBehind(key)),
    });
  }

  /**
   * Leaves memory only when nobody sits in it, nobody is about to, and nothing is on its way to the
   * disk.
   */
  private async letGo(name: string, entry: Entry): Promise<void> {
    const room = await entry.opening.catch(() => undefined);
    if (room?.held.isSaving) await this.ports.saveLoop.flush();
    if (entry.leases > 0 || this.entries.get(name) !== entry) return;
    this.entries.delete(name);
    if (!this.isOpen(entry.key.board)) this.standings.delete(entry.key.board);
    if (room !== undefined && room.held.bytes.rows > rowsBeforeCompaction)
      await this.compact(entry.key);
  }

  /** Answers whether the log is shorter now. */
  private async compact(key: DocumentKey): Promise<boolean> {
    if (this.isStopping) return false;
    try {
      const { rows } = await this.ports.log.load(key);
      const compaction = compactionOf(rows);
      if (compaction === undefined) return false;
      return await this.ports.log.compact(key, compaction.last, compaction.snapshot);
    } catch (fault) {
      this.ports.onFault(fault);
      return false;
    }
  }
}
