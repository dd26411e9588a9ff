/** Space plays and stops wherever it means nothing else. */
import { onCleanup } from "solid-js";
import { commandOf } from "../board/keys.ts";
import type { Listening } from "./create-listening.ts";

/** What takes the space bar for itself. */
const takers = [
  "input:not([type=range])",
  "textarea",
  "select",
  "button",
  "a",
  "summary",
  "dialog",
  "[contenteditable]",
  "[role=tab]",
  "[role=button]",
].join();

/** Listens to the whole window for as long as the component around it lives. */
export function createListenKeys(listening: Pick<Listening, "toggle">): void {
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.defaultPrevented || event.repeat || commandOf(event)?.kind !== "listen") return;
    if (event.target instanceof Element && event.target.closest(takers)) return;
    event.preventDefault();
    listening.toggle();
  };
  addEventListener("keydown", onKeyDown);
  onCleanup(() => removeEventListener("keydown", onKeyDown));
}
