/** What lies around a room: its board as it stands, and what all rooms share. */
import type { MemberId } from "@halflap/board/board";
import type { BoardId, Me } from "@halflap/wire/api";
import type { LaneOwners } from "@halflap/wire/permissions";
import type { DocumentKey } from "../store/log-port.ts";
import type { Standing } from "../store/people-port.ts";
import { type Crossing, ownTime, type SharedTime } from "../wake/crossing-port.ts";
import type { BoardBytes } from "./board-bytes.ts";
import type { LateBytes } from "./late-updates.ts";
import type { RoomPorts } from "./room-ports.ts";
import type { SaveLoop } from "./save-loop.ts";
import type { Searches } from "./searches.ts";

type Around = {
  readonly saveLoop: SaveLoop;
  readonly bytes: BoardBytes;
  readonly lateBytes: LateBytes;
  readonly searches: Searches;
  standing(board: BoardId): Standing | undefined;
  /** Undefined where there are no other nodes. */
  readonly crossing: Pick<Crossing, "cross" | "time"> | undefined;
};

/** A class, since there is one for each room, and functions of its own would weigh more than it. */
export class Surroundings implements RoomPorts {
  readonly saveLoop: SaveLoop;
  readonly lateBytes: LateBytes;
  readonly searches: Searches;
  readonly onBehind: (() => void) | undefined;
  private readonly key: DocumentKey;
  private readonly around: Around;

  constructor(key: DocumentKey, around: Around, onBehind?: (key: DocumentKey) => void) {
    this.saveLoop = around.saveLoop;
    this.lateBytes = around.lateBytes;
    this.searches = around.searches;
    this.key = key;
    this.around = around;
    this.onBehind = onBehind && (() => onBehind(key));
  }

  hasBoardRoomFor(bytes: number): boolean {
    return this.around.bytes.hasRoomFor(this.key.board, bytes);
  }

  memberNow(id: MemberId): Me | undefined {
    return this.standing?.members.find((member) => member.id === id);
  }

  ownersNow(): LaneOwners {
    return this.standing?.owners ?? { upper: undefined, lower: undefined };
  }

  cross(frame: Uint8Array): void {
    this.around.crossing?.cross({ key: this.key, frame });
  }

  time(): SharedTime {
    return this.around.crossing?.time() ?? ownTime();
  }

  private get standing(): Standing | undefined {
    return this.around.standing(this.key.board);
  }
}
