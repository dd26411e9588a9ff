/**
 * A server from its start to its death, without process and network: the real rooms and save loop
 * over a real store, whose answers come some turns late.
 */
import { type NewRow, StoreFull, type UpdateLog } from "@halflap/server/log-port";
import type { Store } from "@halflap/server/ports";
import { Rooms } from "@halflap/server/rooms";
import { SaveLoop, tickMs } from "@halflap/server/save-loop";
import type { Chance } from "../support/seeded.ts";

/** What a check must catch: each is wrong in one place. */
export const variants = [
  /** Whoever comes back is not asked for what they did meanwhile. */
  "asks-nobody",
  /** Rows are said to be stored, and written some turns later if the server lives. */
  "says-saved-early",
  /** Now and then rows are said to be stored and are not. */
  "drops-rows",
] as const;
export type Variant = (typeof variants)[number] | "as-built";

type Append = UpdateLog["append"];

export class ServerLife {
  readonly rooms: Rooms;
  readonly saveLoop: SaveLoop;
  /** Whether the disk has no room at the moment. */
  isFull = false;
  /** What went wrong in it, but for a full disk. */
  readonly faults: unknown[] = [];
  private isOver = false;

  constructor(store: Store, chance: Chance, variant: Variant) {
    const append = variantOf(store.log, chance, variant, () => this.isOver);
    const log: UpdateLog = {
      ...store.log,
      append: async (rows) => {
        await turns(chance.below(3));
        if (this.isOver) return never();
        if (this.isFull) throw new StoreFull("there is no room");
        const decided = await append(rows);
        await turns(chance.below(2));
        return this.isOver ? never() : decided;
      },
    };
    const onFault = (fault: unknown) => {
      if (!(fault instanceof StoreFull)) this.faults.push(fault);
    };
    this.saveLoop = new SaveLoop({ log, now: steppingClock(tickMs), onFault });
    this.rooms = new Rooms({ log, people: store.people, saveLoop: this.saveLoop, onFault });
  }

  /** From here on nothing that it does reaches the store or a page. */
  die(): void {
    this.isOver = true;
  }
}

/** A clock on which each look is so much later than the one before: nobody waits for it. */
export function steppingClock(stepMs: number): () => number {
  let ms = 0;
  return () => {
    ms += stepMs;
    return ms;
  };
}

/** Lets everything happen that is due. */
export async function turns(count: number): Promise<void> {
  for (let left = count; left > 0; left -= 1) {
    await new Promise((resolve) => setImmediate(resolve));
  }
}

function variantOf(
  log: UpdateLog,
  chance: Chance,
  variant: Variant,
  isOver: () => boolean,
): Append {
  const claimed = async ([row]: readonly NewRow[]) => {
    if (row === undefined) throw new Error("nothing is appended by nobody");
    return { kind: "stored", row: (await log.load(row.key)).head } as const;
  };
  switch (variant) {
    case "says-saved-early":
      return async (rows) => {
        void turns(4).then(() => (isOver() ? [] : log.append(rows)));
        const one = await claimed(rows);
        return rows.map(() => one);
      };
    case "drops-rows":
      return async (rows) => {
        if (chance.happens(0.9)) return log.append(rows);
        const one = await claimed(rows);
        return rows.map(() => one);
      };
    default:
      return log.append;
  }
}

function never<T>(): Promise<T> {
  return new Promise(() => undefined);
}
