/**
 * Changes to members, lanes and takes, carried to everybody who has the board open. The only writer
 * of `talk`.
 */
import { laneIds, type MemberId } from "@halflap/board/board";
import {
  dropMember,
  dropTake,
  memberName,
  readTalkState,
  setMember,
  setOwner,
  setTake,
} from "@halflap/board/talk";
import type { BoardId } from "@halflap/wire/api";
import { closeCode } from "@halflap/wire/messages";
import * as Y from "yjs";
import type { Standing } from "../store/people-port.ts";
import { SetAside } from "./quarantine.ts";
import type { Lease, Rooms } from "./rooms.ts";

export class BoardDesk {
  private readonly rooms: Rooms;
  /**
   * One writer at a time for each board, so that no two changes of `talk` start from the same
   * state.
   */
  private readonly writing = new Map<BoardId, Promise<unknown>>();
  /** Tellings that have not begun yet: one serves all who ask meanwhile. */
  private readonly waiting = new Map<BoardId, Promise<void>>();
  /** Boards of which something is still to be told. */
  private readonly owed = new Set<BoardId>();
  private readonly onFault: (fault: unknown) => void;

  constructor(rooms: Rooms, onFault: (fault: unknown) => void) {
    this.rooms = rooms;
    this.onFault = onFault;
  }

  /**
   * Makes `talk` say what the members, lanes and takes tables say, and ends the sockets of whoever
   * is no member any more. The tables decide, `talk` is their picture: calling this again is
   * harmless, and it is called whenever a board is opened, so that a crash between the two leaves
   * nothing behind. Never rejects: the change itself stands, whatever keeps it from being told, and
   * is told once there is room on the disk or the store can be asked again.
   */
  async announce(board: BoardId): Promise<void> {
    await this.tell(board).catch(this.onFault);
  }

  private tell(board: BoardId): Promise<void> {
    const waiting = this.waiting.get(board);
    if (waiting !== undefined) return waiting;
    const turn = this.tellNext(board);
    this.waiting.set(board, turn);
    return turn;
  }

  private async tellNext(board: BoardId): Promise<void> {
    const before = this.writing.get(board) ?? Promise.resolve();
    const turn = before
      .catch(() => undefined)
      .then(() => {
        this.waiting.delete(board); // who asks from here on may know more than this one reads
        return this.announceNow(board);
      });
    this.writing.set(board, turn);
    try {
      await turn;
    } catch (fault) {
      this.owed.add(board);
      throw fault;
    } finally {
      if (this.writing.get(board) === turn) this.writing.delete(board);
    }
  }

  /** Tries again to tell what is owed, but for what is being told. */
  async retry(): Promise<void> {
    const owed = [...this.owed].filter((board) => !this.writing.has(board));
    await Promise.all(owed.map((board) => this.tell(board)));
  }

  /** Ends every socket of a board that is gone. Never rejects, as little as `announce`. */
  async closeBoard(board: BoardId): Promise<void> {
    await this.rooms.refresh(board).catch(this.onFault);
    this.closeStrangers(board, []);
  }

  /**
   * Follows what another node wrote about who belongs to a board: what they may from here on, and
   * whose sockets end. What `talk` says of it is that node's to write, or `announce`'s.
   */
  async follow(board: BoardId): Promise<void> {
    const standing = await this.rooms.refresh(board);
    this.closeStrangers(board, standing?.members.map(({ id }) => id) ?? []);
  }

  private async announceNow(board: BoardId): Promise<void> {
    const standing = await this.rooms.refresh(board);
    this.owed.delete(board);
    if (standing === undefined) return;
    this.closeStrangers(
      board,
      standing.members.map(({ id }) => id),
    );
    const lease = await this.leaseOfTalk(board);
    if (lease === undefined) return;
    try {
      const update = talkUpdate(lease.room.held.bytes.merged(), standing);
      if (update === undefined) return;
      const { kind } = await lease.room.write(update);
      if (kind !== "stored" && kind !== "gone") this.owed.add(board);
    } finally {
      lease.release();
    }
  }

  /** Undefined while `talk` can't be read: the change stands, and is told once it can. */
  private async leaseOfTalk(board: BoardId): Promise<Lease | undefined> {
    try {
      return await this.rooms.lease({ board, document: "talk" });
    } catch (fault) {
      if (!(fault instanceof SetAside)) throw fault;
      this.owed.add(board);
      return undefined;
    }
  }

  /** Whoever comes to a room that opens just now is asked for by the same standing. */
  private closeStrangers(board: BoardId, members: readonly MemberId[]): void {
    for (const room of this.rooms.open(board)) {
      for (const seat of [...room.seats]) {
        if (members.includes(seat.member)) continue;
        room.leave(seat);
        seat.close(closeCode.revoked, "no longer a member of this board");
      }
    }
  }
}

/** What `talk` lacks to agree with the standing, as one update; undefined when it agrees. */
export function talkUpdate(stored: Uint8Array, standing: Standing): Uint8Array | undefined {
  // A new client id each time: no clock is ever used twice, even after a restored backup.
  const talk = new Y.Doc();
  Y.applyUpdate(talk, stored);
  const before = readTalkState(talk);
  const updates: Uint8Array[] = [];
  talk.on("update", (update: Uint8Array) => updates.push(update));
  talk.transact(() => {
    for (const { id } of before.members) {
      if (!standing.members.some((member) => member.id === id)) dropMember(talk, id);
    }
    for (const { id, name: stored, role } of standing.members) {
      const name = memberName(stored); // no name in the store may stop the telling
      const known = before.members.find((member) => member.id === id);
      const isSame = known?.name === name && known?.role === role;
      if (!isSame) setMember(talk, { id, name, role });
    }
    for (const lane of laneIds) {
      if (before.owners[lane] !== standing.owners[lane])
        setOwner(talk, lane, standing.owners[lane]);
    }
    for (const { id } of before.takes) {
      if (!standing.takes.some((take) => take.id === id)) dropTake(talk, id);
    }
    for (const take of standing.takes) {
      if (!before.takes.some(({ id }) => id === take.id)) setTake(talk, take);
    }
  });
  return updates[0];
}
