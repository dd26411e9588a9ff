/** The first count of a day stays; later ones are told against it, in honest words. */
import { describe, expect, test } from "vitest";
import { changeSince, dayOf, firstOfDay } from "./day-count.ts";

const monday = { day: "2026-03-02", hour: 9 };

describe("the count of the day", () => {
  test("the first count of a day is kept, the next day begins anew", () => {
    const first = firstOfDay(undefined, monday, 7);
    expect(firstOfDay(first, { ...monday, hour: 20 }, 3)).toBe(first);
    const tuesday = { day: "2026-03-03", hour: 19 };
    expect(firstOfDay(first, tuesday, 3)).toEqual({ ...tuesday, count: 3 });
  });

  test("fewer and more are told apart, and nothing is said while it is as many", () => {
    const first = { ...monday, count: 7 };
    expect(changeSince(first, 4)).toEqual({ by: -3, since: "morning" });
    expect(changeSince(first, 9)).toEqual({ by: 2, since: "morning" });
    expect(changeSince(first, 7)).toBeUndefined();
  });

  test("a board first opened after noon had no morning", () => {
    expect(changeSince({ ...monday, hour: 12, count: 7 }, 6)?.since).toBe("earlier");
    expect(changeSince({ ...monday, hour: 11, count: 7 }, 6)?.since).toBe("morning");
  });

  test("a day is the local one", () => {
    expect(dayOf(new Date(2026, 2, 2, 0, 5))).toEqual({ day: "2026-03-02", hour: 0 });
    expect(dayOf(new Date(2026, 10, 12, 23, 55))).toEqual({ day: "2026-11-12", hour: 23 });
  });
});
