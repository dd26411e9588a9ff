/** A board that is opened to be tried out begins at its gravest finding. */
import { createEffect, onCleanup } from "solid-js";
import { gravestOf } from "../findings/reading-order.ts";
import type { Desk } from "./desk.ts";

/** Its documents come in one by one and are checked as they come: this long without news is all. */
const settledMs = 400;

/** Picks it once the findings stay as they are, unless something else was picked before. */
export function createFirstLook(desk: Desk): void {
  let isTaken = false;
  createEffect(() => {
    const gravest = gravestOf(desk.findings());
    if (isTaken || !gravest || desk.session.state().kind === "opening") return;
    const timer = setTimeout(() => {
      isTaken = true;
      if (!desk.picked()) desk.pick(gravest);
    }, settledMs);
    onCleanup(() => clearTimeout(timer));
  });
}
