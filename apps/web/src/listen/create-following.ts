/** Keeps the sounding bar in view, unless the person is looking elsewhere or writing. */
import { createEffect, on, onCleanup } from "solid-js";
import { placeId } from "../board/place.ts";
import type { Listening } from "./create-listening.ts";

/** Whoever scrolled is left alone for so long. */
const restMs = 6000;
const scrollKeys = ["PageUp", "PageDown", "Home", "End", "ArrowUp", "ArrowDown"];

/** Scrolls by whole lines, and only when the bar has left what is seen. */
export function createFollowing(listening: Pick<Listening, "heard">): void {
  let scrolledAt = Number.NEGATIVE_INFINITY;
  const onScroll = (event: Event) => {
    if (event instanceof KeyboardEvent && !scrollKeys.includes(event.key)) return;
    scrolledAt = performance.now();
  };
  for (const kind of ["wheel", "touchmove", "keydown"] as const) {
    addEventListener(kind, onScroll, { passive: true });
    onCleanup(() => removeEventListener(kind, onScroll));
  }
  createEffect(
    on(
      () => listening.heard()?.bar,
      (bar) => {
        if (bar === undefined || performance.now() - scrolledAt < restMs || isWriting()) return;
        const cell = document.getElementById(placeId({ kind: "chords", bar }));
        const line = cell?.closest("[data-line]");
        if (!line || isSeen(line.getBoundingClientRect())) return;
        const isCalm = matchMedia("(prefers-reduced-motion: reduce)").matches;
        line.scrollIntoView({ block: "center", behavior: isCalm ? "instant" : "smooth" });
      },
    ),
  );
}

function isWriting(): boolean {
  return document.activeElement?.matches(".board-main :is(input, textarea, select)") === true;
}

/** Whether a line lies between the bar on top and what covers the bottom. */
function isSeen({ top, bottom }: DOMRect): boolean {
  const head = document.querySelector(".top-bar")?.getBoundingClientRect().bottom ?? 0;
  const foot = document.querySelector(".listen-row")?.getBoundingClientRect().top ?? innerHeight;
  const isTall = bottom - top > foot - head;
  return top >= Math.max(0, head) - 1 && (isTall ? top < foot - 80 : bottom <= foot + 1);
}
