/**
 * One of several nodes over a shared store, without process and network: the real rooms, save loop,
 * desk and follower. The store's answers come some turns late, and at times not at all.
 */
import { BoardDesk } from "@halflap/server/board-desk";
import { Follower } from "@halflap/server/follower";
import { type DocumentKey, rowId, StoreAway, type UpdateLog } from "@halflap/server/log-port";
import type { Store } from "@halflap/server/ports";
import { Rooms } from "@halflap/server/rooms";
import { SaveLoop, tickMs } from "@halflap/server/save-loop";
import type { Chance } from "../support/seeded.ts";
import { steppingClock, turns } from "./server-life.ts";

/** What a check must catch: each follows wrongly. */
export const wrongFollowers = [
  /** What others wrote is never read. */
  "trusts its own rows alone",
  /** What others wrote before its own last row is taken as read. */
  "reads on from its own last row",
] as const;
export type NodeVariant = (typeof wrongFollowers)[number] | "as built";

export class NodeLife {
  readonly rooms: Rooms;
  readonly saveLoop: SaveLoop;
  readonly follower: Follower;
  /** Whether the store can't be reached from here at the moment. */
  isAway = false;
  /** What went wrong in it, but for the store being away. */
  readonly faults: unknown[] = [];
  private isOver = false;
  private readonly chance: Chance;

  constructor(store: Pick<Store, "log" | "people">, chance: Chance, variant: NodeVariant) {
    this.chance = chance;
    const log = this.flaky(variantOf(store.log, variant));
    const { people } = store;
    const onFault = (fault: unknown) => {
      if (!(fault instanceof StoreAway)) this.faults.push(fault);
    };
    const onBehind = (key: DocumentKey) => void this.follower.look(key);
    this.saveLoop = new SaveLoop({ log, now: steppingClock(tickMs), onFault });
    this.rooms = new Rooms({ log, people, saveLoop: this.saveLoop, onFault, onBehind });
    const desk = new BoardDesk(this.rooms, onFault);
    this.follower = new Follower({ log, people, rooms: this.rooms, desk, onFault });
  }

  /** From here on nothing that it does reaches the store or a page. */
  die(): void {
    this.isOver = true;
  }

  private flaky(log: UpdateLog): UpdateLog {
    const late = async <T>(ask: () => Promise<T>): Promise<T> => {
      await turns(this.chance.below(3));
      if (this.isOver) return new Promise(() => undefined);
      // Away, a question is not heard, or its answer is not.
      const isHeard = !this.isAway || this.chance.happens(0.3);
      const answer = isHeard ? await ask() : undefined;
      await turns(this.chance.below(2));
      if (this.isOver) return new Promise(() => undefined);
      if (this.isAway || answer === undefined) throw new StoreAway("it can't be reached");
      return answer;
    };
    return {
      append: (rows) => late(() => log.append(rows)),
      load: (key) => late(() => log.load(key)),
      since: (key, after) => late(() => log.since(key, after)),
      heads: (keys) => late(() => log.heads(keys)),
      compact: (key, last, snapshot) => late(() => log.compact(key, last, snapshot)),
      newest: (key) => late(() => log.newest(key)),
    };
  }
}

function variantOf(log: UpdateLog, variant: NodeVariant): UpdateLog {
  let last = rowId(0);
  switch (variant) {
    case "trusts its own rows alone":
      return { ...log, heads: async (keys) => keys.map(() => rowId(0)) };
    case "reads on from its own last row":
      return {
        ...log,
        append: async (rows) => {
          const decided = await log.append(rows);
          for (const one of decided) if (one.kind === "stored") last = one.row;
          return decided;
        },
        since: (key, after) => log.since(key, rowId(Math.max(after, last))),
      };
    default:
      return log;
  }
}
