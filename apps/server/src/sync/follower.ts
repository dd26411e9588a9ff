/**
 * Follows what other nodes write to a shared store: rows of the documents that are open here, and
 * who belongs to their boards. It asks every so often, and at once where something shows that this
 * node is behind.
 *
 * The numbers of the rows are all it trusts. Whatever else may say that there is news can be lost,
 * doubled or late, and nothing is missed for it.
 */
import type { BoardId } from "@halflap/wire/api";
import type { DocumentKey, RowId, Since, UpdateLog } from "../store/log-port.ts";
import type { People } from "../store/people-port.ts";
import type { Word } from "../wake/wake-port.ts";
import { nameOf } from "./batch.ts";
import type { BoardDesk } from "./board-desk.ts";
import type { Room } from "./room.ts";
import type { Rooms } from "./rooms.ts";

/** How often everything that is open is compared with the store: two questions each time. */
export const followMs = 2_000;

export type FollowerPorts = {
  readonly log: Pick<UpdateLog, "heads" | "since">;
  readonly people: Pick<People, "peopleVersion">;
  readonly rooms: Pick<Rooms, "open" | "opened" | "read" | "setAside">;
  readonly desk: Pick<BoardDesk, "follow" | "announce">;
  /** Told what the store or a document failed with: it is tried again. */
  readonly onFault: (fault: unknown) => void;
};

/** One for the process; it looks at one thing after the other. */
export class Follower {
  private readonly ports: FollowerPorts;
  /** The version of its people that each open board is at. */
  private readonly versions = new Map<BoardId, number>();
  /** Boards whose `talk` is compared with the tables at the next look: its row comes after them. */
  private readonly unsettled = new Set<BoardId>();
  private wantsAll = false;
  private readonly wanted = new Set<string>();
  private running: Promise<void> | undefined;
  private isStopped = false;

  constructor(ports: FollowerPorts) {
    this.ports = ports;
  }

  /** Looks at everything every so often; what comes back stops it. */
  start(): () => Promise<void> {
    const timer = setInterval(() => void this.look(), followMs);
    return async () => {
      this.isStopped = true;
      clearInterval(timer);
      await this.running;
    };
  }

  /**
   * Looks at one document and its board, or at all that are open: now, or when the look under way
   * is over. Resolves when that is done, also when it failed.
   */
  look(key?: DocumentKey): Promise<void> {
    if (key === undefined) this.wantsAll = true;
    else this.wanted.add(nameOf(key));
    this.running ??= this.run();
    return this.running;
  }

  /**
   * Looks at a document that is said to have a row, if it is open and lacks the row. One that is
   * about to open may have read the log before the row came.
   */
  async hear({ key, row }: Word): Promise<void> {
    const room = await this.ports.rooms.opened(key);
    if (room?.held.position?.isBehind(row)) await this.look(key);
  }

  private async run(): Promise<void> {
    while ((this.wantsAll || this.wanted.size > 0) && !this.isStopped) {
      const isAll = this.wantsAll;
      const names = new Set(this.wanted);
      this.wantsAll = false;
      this.wanted.clear();
      try {
        const open = this.ports.rooms.open();
        if (isAll) this.forgetAllBut(new Set(open.map(({ key }) => key.board)));
        await this.compare(isAll ? open : open.filter(({ key }) => names.has(nameOf(key))));
      } catch (fault) {
        this.ports.onFault(fault);
      }
    }
    this.running = undefined;
  }

  private forgetAllBut(open: ReadonlySet<BoardId>): void {
    for (const board of this.versions.keys()) if (!open.has(board)) this.versions.delete(board);
    for (const board of this.unsettled) if (!open.has(board)) this.unsettled.delete(board);
  }

  private async compare(rooms: readonly Room[]): Promise<void> {
    if (rooms.length === 0) return;
    const marks = rooms.map(({ lateMark }) => lateMark);
    const boards = [...new Set(rooms.map(({ key }) => key.board))];
    const settling = boards.filter((board) => this.unsettled.has(board));
    const [heads, versions] = await Promise.all([
      this.ports.log.heads(rooms.map(({ key }) => key)),
      this.ports.people.peopleVersion(boards),
    ]);
    const failed = new Set<BoardId>();
    for (const [i, board] of boards.entries()) {
      if (!(await this.tried(() => this.followPeople(board, versions[i])))) failed.add(board);
    }
    for (const [i, room] of rooms.entries()) {
      const isThere = await this.tried(() => this.followRows(room, heads[i]));
      if (isThere && !failed.has(room.key.board)) room.judgeLate(marks[i] ?? 0);
    }
    for (const board of settling) await this.tried(() => this.settle(board));
  }

  private async followPeople(board: BoardId, version: number | undefined): Promise<void> {
    if (version === undefined || this.versions.get(board) === version) return;
    await this.ports.desk.follow(board);
    this.versions.set(board, version);
    this.unsettled.add(board);
  }

  private async followRows(room: Room, head: RowId | undefined): Promise<void> {
    const { position } = room.held;
    if (head === undefined || position?.isBehind(head) !== true) return;
    const since = await this.ports.log.since(room.key, position.reached);
    if (since.kind === "rows") await this.takeRows(room, since);
    else await room.loadAnew(() => this.ports.rooms.read(room.key));
    if (room.key.document === "talk") this.unsettled.add(room.key.board);
  }

  /** What a room can't take in was damaged in the store, and would be so at each look. */
  private async takeRows(room: Room, since: Extract<Since, { kind: "rows" }>): Promise<void> {
    try {
      room.follow(since);
    } catch (fault) {
      await this.ports.rooms.setAside(room.key, fault);
      throw fault;
    }
  }

  /** Two nodes that write `talk` at once may leave it saying what the tables no longer say. */
  private async settle(board: BoardId): Promise<void> {
    this.unsettled.delete(board);
    try {
      await this.ports.desk.announce(board);
    } catch (fault) {
      this.unsettled.add(board);
      throw fault;
    }
  }

  /** One document that can't be followed must not keep the others from it. */
  private async tried(act: () => Promise<void>): Promise<boolean> {
    try {
      await act();
      return true;
    } catch (fault) {
      this.ports.onFault(fault);
      return false;
    }
  }
}
