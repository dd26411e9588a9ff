/** What the findings of the open board come to against the first count of the day. */
import { createEffect, createSignal, onCleanup } from "solid-js";
import { countOfToday } from "../app/count-of-today.ts";
import type { Session } from "../session/session.ts";
import { type CountChange, changeSince, type DayCount } from "./day-count.ts";

/** A board that has just been opened is still being put together; its count waits this long. */
const settlingMs = 1500;

/** undefined while nothing was counted, or nothing changed. */
export function createDayChange(
  session: Session,
  count: () => number,
): () => CountChange | undefined {
  const [first, setFirst] = createSignal<DayCount>();
  createEffect(() => {
    const now = count();
    // An empty list may only mean that nothing was worked out yet.
    if (session.state().kind === "opening" || (now === 0 && first() === undefined)) return;
    const timer = setTimeout(() => setFirst(countOfToday(session.id, now, new Date())), settlingMs);
    onCleanup(() => clearTimeout(timer));
  });
  return () => {
    const then = first();
    return then && changeSince(then, count());
  };
}
