/**
 * What keeps boards in memory, put together: save loop, rooms, desk, titles, follower and folding.
 */
import type { DocumentKey } from "../store/log-port.ts";
import type { Store } from "../store/store.ts";
import { waking } from "../wake/chosen-wakes.ts";
import type { Crossing } from "../wake/crossing-port.ts";
import type { Wakes } from "../wake/wake-port.ts";
import { BoardDesk } from "./board-desk.ts";
import { BoardTitles } from "./board-titles.ts";
import { startFoldingThread } from "./folding-thread.ts";
import { Follower } from "./follower.ts";
import { Quarantine } from "./quarantine.ts";
import { Rooms } from "./rooms.ts";
import { SaveLoop } from "./save-loop.ts";

export type LiveBoards = {
  readonly saveLoop: SaveLoop;
  readonly rooms: Rooms;
  readonly desk: BoardDesk;
  readonly titles: BoardTitles;
  readonly quarantine: Quarantine;
  /** Other nodes are followed no more, and nothing is folded. */
  stopFollowing(): Promise<void>;
};

export type LiveBoardsParts = {
  readonly store: Pick<Store, "log" | "people">;
  /** What wakes the nodes that share the store; undefined where this one is alone with it. */
  readonly wakes: (Wakes & Crossing) | undefined;
  readonly onStoreFault: (fault: unknown) => void;
  readonly onFault: (fault: unknown) => void;
  /** Told about each document that can't be read and is set aside. */
  readonly onSetAside: (key: DocumentKey, fault: unknown) => void;
};

/** Boards over a store, and over one that is shared also what other nodes do to them. */
export function liveBoards(parts: LiveBoardsParts): LiveBoards {
  const { store, wakes, onStoreFault, onFault, onSetAside } = parts;
  const { people } = store;
  const log = wakes === undefined ? store.log : waking(store.log, wakes);
  const clock = () => performance.now();
  const saveLoop = new SaveLoop({ log, now: clock, onFault: onStoreFault });
  const onBehind = wakes && ((key: DocumentKey) => void follower.look(key));
  const folding = startFoldingThread();
  const quarantine = new Quarantine({ clock, onSetAside });
  const around = { onBehind, crossing: wakes, folding, quarantine };
  const rooms = new Rooms({ log, people, saveLoop, onFault, ...around });
  const desk = new BoardDesk(rooms, onFault);
  const follower = new Follower({ log, people, rooms, desk, onFault });
  const titles = new BoardTitles({ log, rooms, folding, clock, onFault });
  const live = { saveLoop, rooms, desk, titles, quarantine };
  if (wakes === undefined) return { ...live, stopFollowing: () => folding.close() };
  wakes.hear((heard) => {
    if (heard === "perhaps-more") void follower.look();
    else void follower.hear(heard);
  });
  wakes.hearCrossed((crossed) => void rooms.hear(crossed).catch(onFault));
  const stop = follower.start();
  const stopFollowing = async () => {
    await wakes.close();
    await stop();
    await folding.close();
  };
  return { ...live, stopFollowing };
}
