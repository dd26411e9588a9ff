/** How many findings a board had when it was first looked at today, kept in this browser. */

/** The first count of a day; `hour` is the local hour in which it was taken. */
export type DayCount = { readonly day: string; readonly hour: number; readonly count: number };

/** What changed since then: never zero. */
export type CountChange = { readonly by: number; readonly since: "morning" | "earlier" };

const noon = 12;

/** The local day as a text that sorts, and its hour. */
export function dayOf(now: Date): Pick<DayCount, "day" | "hour"> {
  const two = (number: number) => String(number).padStart(2, "0");
  const day = `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  return { day, hour: now.getHours() };
}

/** The first count of the day: the one kept, if it is of today, else this one. */
export function firstOfDay(
  kept: DayCount | undefined,
  now: Pick<DayCount, "day" | "hour">,
  count: number,
): DayCount {
  return kept?.day === now.day ? kept : { ...now, count };
}

/** How a count differs from the first of the day; undefined when it does not. */
export function changeSince(first: DayCount, count: number): CountChange | undefined {
  if (count === first.count) return undefined;
  return { by: count - first.count, since: first.hour < noon ? "morning" : "earlier" };
}
