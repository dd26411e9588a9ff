/** What the keys do on one string of the neck. */
import type { FretRange } from "./fret-typing.ts";

export type StringAct =
  | { readonly kind: "put"; readonly fret: number | undefined }
  | { readonly kind: "walk"; readonly by: 1 | -1 };

type Press = Pick<KeyboardEvent, "key" | "ctrlKey" | "metaKey" | "altKey">;

/**
 * The act of a key on a string that holds `held` (undefined = silent); undefined for other keys.
 * `typed` is the fret that it makes as a digit.
 */
export function stringKey(
  press: Press,
  held: number | undefined,
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
      return put(held === undefined ? range.lowest : Math.min(held + 1, range.highest));
    case towardsNut:
      return put(held === undefined || held <= range.lowest ? undefined : held - 1);
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
      return typed === undefined ? undefined : put(typed);
  }
}

function put(fret: number | undefined): StringAct {
  return { kind: "put", fret };
}
