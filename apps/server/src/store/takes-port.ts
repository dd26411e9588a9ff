/** Takes and their sound: what a place that keeps them must offer. */
import type { TakeId } from "@halflap/board/ids";
import type { BoardId, TakeCard } from "@halflap/wire/api";

export type NewTake = {
  readonly board: BoardId;
  readonly card: TakeCard;
  readonly sound: Uint8Array;
};

/** Part of a recording, in bytes. */
export type ByteRange = { readonly start: number; readonly length: number };

export type Takes = {
  /**
   * Stores a take whole or not at all. "full" when the board holds as many takes, or as many bytes
   * of them, as it may; "gone" when the board is, or who played it is no member of it any more.
   * Rejects with StoreFull when there is no room on the disk.
   */
  keep(take: NewTake): Promise<"kept" | "full" | "gone">;
  /** Oldest first. */
  list(board: BoardId): Promise<readonly TakeCard[]>;
  /** A take of that board and of no other. */
  card(board: BoardId, take: TakeId): Promise<TakeCard | undefined>;
  /** Some bytes of its recording; undefined when there is no such take. */
  read(
    board: BoardId,
    take: TakeId,
    range: ByteRange,
  ): Promise<Uint8Array<ArrayBuffer> | undefined>;
  /** The member in its row, whether or not its words can be read; undefined when there is none. */
  playerOf(board: BoardId, take: TakeId): Promise<string | undefined>;
  /** False when there was none; its words need not be readable. */
  remove(board: BoardId, take: TakeId): Promise<boolean>;
};
