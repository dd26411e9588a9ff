/** Space plays and stops wherever it means nothing else. */
import { onCleanup } from "solid-js";
import { commandOf } from "../board/keys.ts";
import type { Listening } from "./create-listening.ts";

/** What is written in, or asks for an answer. */
const fields = ["textarea", "dialog", "[contenteditable]"];
const unwritten = ["checkbox", "radio", "range", "button", "submit", "reset", "color", "file"];
const isUnwritten = unwritten.map((type) => `[type=${type}]`).join();
const writers = [...fields, `input:not(${isUnwritten})`].join();

/** What takes the space bar for itself. */
const pressed = ["select", "button", "a", "summary", "[role=tab]", "[role=button]"];
const takers = [...fields, "input:not([type=range])", ...pressed].join();

/**
 * Whether somebody writes there. A slider or a list keeps the focus after a click, and whoever then
 * steps on a pedal means the pedal.
 */
export function isWrittenIn(target: EventTarget | null): boolean {
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
