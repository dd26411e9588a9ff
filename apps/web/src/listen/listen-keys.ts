/** Space plays and stops wherever it means nothing else. */
import { onCleanup } from "solid-js";
import { commandOf } from "../board/keys.ts";
import type { Listening } from "./create-listening.ts";

/** What is written in, or chosen from, with keys. */
const fields = ["textarea", "select", "dialog", "[contenteditable]"];
const writers = [...fields, "input:not([type=checkbox], [type=radio])"].join();

/** What takes the space bar for itself. */
const pressed = ["button", "a", "summary", "[role=tab]", "[role=button]"];
const takers = [...fields, "input:not([type=range])", ...pressed].join();

/** Whether keys pressed there belong to what has the focus: somebody writes, or sets a figure. */
export function takesKeys(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest(writers) !== null;
}

/** Whether space presses what has the focus, or writes there. */
export function takesPresses(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest(takers) !== null;
}

/** Listens to the whole window for as long as the component around it lives. */
export function createListenKeys(listening: Pick<Listening, "toggle">): void {
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.defaultPrevented || event.repeat || commandOf(event)?.kind !== "listen") return;
    if (takesPresses(event.target)) return;
    event.preventDefault();
    listening.toggle();
  };
  addEventListener("keydown", onKeyDown);
  onCleanup(() => removeEventListener("keydown", onKeyDown));
}
