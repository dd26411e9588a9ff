/** Frets typed with one digit or two: a second one belongs to the first for about a second. */

/** The frets that may be typed, as the lane counts them. */
export type FretRange = { readonly lowest: number; readonly highest: number };

/** `timeStamp` is in milliseconds, as events have it. */
type Press = Pick<KeyboardEvent, "key" | "timeStamp">;

/**
 * Told of every key with the place it is pressed on; says the fret that the digits make so far,
 * undefined where they make none.
 */
export type FretTyping = (press: Press, place: string, range: FretRange) => number | undefined;

const joinWithinMs = 1000;

/**
 * Remembers the last digit. On the same place the next one joins it, where the neck is long
 * enough: 1, then 2, makes 12. What was there before anybody typed is joined to nothing.
 */
export function makeFretTyping(): FretTyping {
  let first: { readonly digit: number; readonly place: string; readonly at: number } | undefined;
  return ({ key, timeStamp }, place, { lowest, highest }) => {
    const before = first;
    first = undefined;
    if (!/^\d$/.test(key)) return undefined;
    const digit = Number(key);
    const isSoon = before?.place === place && timeStamp - before.at <= joinWithinMs;
    const joined = isSoon ? before.digit * 10 + digit : undefined;
    if (joined !== undefined && joined <= highest) return joined < lowest ? undefined : joined;
    // No number of two digits begins with 0.
    if (digit > 0) first = { digit, place, at: timeStamp };
    return digit >= lowest && digit <= highest ? digit : undefined;
  };
}
