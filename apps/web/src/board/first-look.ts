/** A board that is opened to be tried out begins at its gravest finding. */
import { createEffect, onCleanup } from "solid-js";
import { gravestOf } from "../findings/reading-order.ts";
import type { Desk } from "./desk.ts";

/** Picks it as soon as there is one, unless something else was picked before. */
export function createFirstLook(desk: Desk): void {
  let frame: number | undefined;
  createEffect(() => {
    const gravest = gravestOf(desk.findings());
    if (frame !== undefined || !gravest) return;
    // The lines have to stand before the page can scroll to one.
    frame = requestAnimationFrame(() => {
      if (!desk.picked()) desk.pick(gravest);
    });
  });
  onCleanup(() => {
    if (frame !== undefined) cancelAnimationFrame(frame);
  });
}
