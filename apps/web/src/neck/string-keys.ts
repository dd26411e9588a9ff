/** What the keys do on one string of the neck. */

export type StringAct =
  | { readonly kind: "put"; readonly fret: number | undefined }
  | { readonly kind: "walk"; readonly by: 1 | -1 };

/** The frets that may be typed, as the lane counts them. */
export type FretRange = { readonly lowest: number; readonly highest: number };

type Press = Pick<KeyboardEvent, "key" | "ctrlKey" | "metaKey" | "altKey">;

/**
 * The act of a key on a string that holds `typed` (undefined = silent); undefined for other keys.
 * A second digit joins the first where the neck is long enough: 1, then 2, makes 12.
 */
export function stringKey(
  press: Press,
  typed: number | undefined,
  range: FretRange,
  mirrored: boolean,
): StringAct | undefined {
  if (press.ctrlKey || press.metaKey || press.altKey) return undefined;
  const towardsBody = mirrored ? "ArrowLeft" : "ArrowRight";
  const towardsNut = mirrored ? "ArrowRight" : "ArrowLeft";
  switch (press.key) {
    case "ArrowUp":
      return { kind: "walk", by: -1 };
    case "ArrowDown":
      return { kind: "walk", by: 1 };
    case towardsBody:
      return put(typed === undefined ? range.lowest : Math.min(typed + 1, range.highest));
    case towardsNut:
      return put(typed === undefined || typed <= range.lowest ? undefined : typed - 1);
    case "Home":
      return put(range.lowest);
    case "End":
      return put(range.highest);
    case "x":
    case "X":
    case "Delete":
    case "Backspace":
      return put(undefined);
    default:
      return /^\d$/.test(press.key) ? putDigit(Number(press.key), typed, range) : undefined;
  }
}

function put(fret: number | undefined): StringAct {
  return { kind: "put", fret };
}

function putDigit(
  digit: number,
  typed: number | undefined,
  range: FretRange,
): StringAct | undefined {
  const joined = typed === undefined || typed === 0 || typed > 9 ? digit : typed * 10 + digit;
  const fret = joined <= range.highest ? joined : digit;
  return fret >= range.lowest && fret <= range.highest ? put(fret) : undefined;
}
