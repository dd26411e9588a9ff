/** The update log with every commit timed and counted, and whether the last one succeeded. */
import type { UpdateLog } from "../store/log-port.ts";
import type { Tallies } from "./tallies.ts";

export type MeasuredLog = {
  readonly log: UpdateLog;
  /** False once a commit failed, until one succeeds. */
  isTakingRows(): boolean;
};

/** The same log, measured; `clock` gives milliseconds that never go back. */
export function measured(log: UpdateLog, tallies: Tallies, clock: () => number): MeasuredLog {
  let isTaking = true;
  const append: UpdateLog["append"] = async (rows) => {
    const start = clock();
    const count = (outcomes: readonly string[]) => {
      tallies.append((clock() - start) / 1000);
      for (const [i, { update }] of rows.entries()) {
        tallies.update(outcomes[i] ?? "failed", update.length);
      }
    };
    try {
      const decided = await log.append(rows);
      isTaking = true;
      count(decided.map(({ kind }) => kind));
      return decided;
    } catch (fault) {
      isTaking = false;
      count([]);
      throw fault;
    }
  };
  return { log: { ...log, append }, isTakingRows: () => isTaking };
}
