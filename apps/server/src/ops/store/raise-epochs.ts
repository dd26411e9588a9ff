/** Epochs after a restore: pages that knew more than the backup are then turned away. */
import { openToChange } from "./open-records.ts";
import type { Ask, StorePlace } from "./records.ts";

/**
 * Gives every board of a store an epoch above all that it may ever have had, whatever was put in
 * its place. Answers how many boards there are. Rejects with CantDo when a server has it open.
 */
export async function raiseEpochs(place: StorePlace, now: number): Promise<number> {
  const records = await openToChange(place, now, "alone");
  try {
    return await raiseAll(records.ask, epochAt(now));
  } finally {
    await records.close();
  }
}

/** Epochs were seconds since 1970 after the first restoring: also a lost store's are below now. */
export function epochAt(now: number): number {
  return Math.floor(now / 1000);
}

/** Raises the epochs of all boards to what is given at least; answers how many boards there are. */
export async function raiseAll(ask: Ask, least: number): Promise<number> {
  const raised = await ask(
    `UPDATE boards SET people_version = people_version + 1,
                       epoch = CASE WHEN epoch >= $1 THEN epoch + 1 ELSE $1 END
     RETURNING id`,
    [least],
  );
  return raised.length;
}
