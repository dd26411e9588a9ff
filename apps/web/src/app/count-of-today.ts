/** The first count of findings of the day for each board, kept in this browser. */
import type { BoardId } from "@halflap/wire/api";
import { type DayCount, dayOf, firstOfDay } from "../findings/day-count.ts";
import { remember, remembered } from "../session/remembered.ts";

/** The first count of today for a board, taken now if none was taken yet. */
export function countOfToday(board: BoardId, count: number, now: Date): DayCount {
  const name = `counted:${board}`;
  const kept = remembered(name, decode);
  const first = firstOfDay(kept, dayOf(now), count);
  if (first !== kept) remember(name, first);
  return first;
}

function decode(value: unknown): DayCount | undefined {
  if (typeof value !== "object" || value === null) return undefined;
  if (!("day" in value && "hour" in value && "count" in value)) return undefined;
  const { day, hour, count } = value;
  const isWhole = typeof day === "string" && typeof hour === "number" && typeof count === "number";
  return isWhole ? { day, hour, count } : undefined;
}
