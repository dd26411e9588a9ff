/** Where the keys stand outlives what is drawn anew around it. */
import { type Accessor, createEffect, createMemo } from "solid-js";
import type { Desk } from "./desk.ts";
import { placeId } from "./place.ts";

/**
 * When bars go over to other lines, their cells are made anew, and the keys that one of them had
 * are nobody's: the desk's place gets them. Made after whatever settles that place.
 */
export function createKeptFocus(desk: Desk, lines: Accessor<unknown>): void {
  // Worked out before anything of it is drawn.
  const hadKeys = createMemo(
    () => {
      lines();
      return document.activeElement?.matches(".board [role=gridcell][id]") ?? false;
    },
    false,
    { equals: false },
  );
  createEffect(() => {
    const place = hadKeys() && document.activeElement === document.body ? desk.place() : undefined;
    if (place) document.getElementById(placeId(place))?.focus({ preventScroll: true });
  });
}
