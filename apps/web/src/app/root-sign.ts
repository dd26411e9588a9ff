/** Signs on the page's root element: what a part of the page asks of the whole of it. */
import { createRenderEffect, onCleanup } from "solid-js";

/** A board is open; a sheet lies beside it; a hint stands above; it sounds, alone or together. */
export type RootSign = "board" | "beside" | "hint" | "sounding" | "together";

/**
 * Puts `data-<sign>` on the root while `isOn`. A style sheet that asks `:has()` of the root instead
 * walks the whole page after every change to it.
 */
export function createRootSign(sign: RootSign, isOn: () => boolean): void {
  const { documentElement: root } = document;
  createRenderEffect(() => root.toggleAttribute(`data-${sign}`, isOn()));
  onCleanup(() => root.removeAttribute(`data-${sign}`));
}
