/** What a room asks of what lies around it. */
import type { MemberId } from "@halflap/board/board";
import type { Me } from "@halflap/wire/api";
import type { LaneOwners } from "@halflap/wire/permissions";
import type { SharedTime } from "../wake/crossing-port.ts";
import type { LateBytes } from "./late-updates.ts";
import type { SaveLoop } from "./save-loop.ts";
import type { Searches } from "./searches.ts";

export type RoomPorts = {
  readonly saveLoop: SaveLoop;
  /** What waits in all rooms to be judged; undefined = in this one alone. */
  readonly lateBytes?: LateBytes;
  /** What may be searched for the seats of all rooms; undefined = of this one alone. */
  readonly searches?: Searches;
  /** A member as of now; undefined once removed. */
  memberNow(id: MemberId): Me | undefined;
  ownersNow(): LaneOwners;
  /** Whether so many bytes more are within what the board's documents may come to together. */
  hasBoardRoomFor?(bytes: number): boolean;
  /** Passes a frame to this document's rooms at other nodes, where there may be some. */
  cross?(frame: Uint8Array): void;
  /** The time that the nodes share; this process' own where there is none. */
  time?(): SharedTime;
  /** Told when other nodes seem to be ahead; undefined where no other node writes. */
  readonly onBehind?: (() => void) | undefined;
};
