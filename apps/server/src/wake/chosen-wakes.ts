/** The wake-ups that the settings choose, and a log that says them. */
import type { Config } from "../config.ts";
import type { NewRow, UpdateLog } from "../store/log-port.ts";
import { nameOf } from "../sync/batch.ts";
import type { Crossing } from "./crossing-port.ts";
import { inProcessRound } from "./in-process.ts";
import { redisWakes } from "./redis.ts";
import type { Wakes, Word } from "./wake-port.ts";

/** Over Redis where there is one, else in this process alone. */
export function openChosenWakes(
  { redis }: Pick<Config, "redis">,
  onLost: (fault: unknown) => void,
): Wakes & Crossing {
  return redis === undefined ? inProcessRound()() : redisWakes({ address: redis, onLost });
}

/** The same log, which says of each document that got rows how far it is. */
export function waking(log: UpdateLog, wakes: Pick<Wakes, "say">): UpdateLog {
  return {
    ...log,
    async append(rows: readonly NewRow[]) {
      const decided = await log.append(rows);
      const words = new Map<string, Word>();
      for (const [i, { key }] of rows.entries()) {
        const one = decided[i];
        if (one?.kind === "stored") words.set(nameOf(key), { key, row: one.row });
      }
      for (const word of words.values()) wakes.say(word);
      return decided;
    },
  };
}
