/**
 * What a socket may say about its member while connected; `member` is stamped and checked by the
 * server.
 */
import type { LaneId, MemberId, SlotId } from "@halflap/board/board";

export type Presence = {
  readonly member: MemberId;
  readonly name: string;
  readonly lane?: LaneId;
  readonly slot?: SlotId;
  /** Hears what is played together, with a clock that is right within so many ms. */
  readonly withinMs?: number;
};
