/** Whatever is pointed at can be heard: rested on with the mouse, come to with keys, or tapped. */
import type { BarId, Board } from "@halflap/board/board";
import type { LaneEdit } from "@halflap/board/proposal";
import { onCleanup } from "solid-js";
import type { SlotPlace } from "../board/desk.ts";
import { chartEnds } from "./bar-names.ts";
import { useListening } from "./create-listening.ts";
import type { Pointed } from "./create-pointing.ts";

/**
 * A ref for the element of what `pointed` says; of two inside each other the inner one counts.
 * Nothing is heard until somebody has switched it on.
 */
export function hearWhenPointed(pointed: () => Pointed | undefined): (element: Element) => void {
  const { pointing } = useListening();
  let isTouch = false;
  /** One for each element, by which it is told from the others. */
  const here = {};
  const rest = () => pointing.rest(here, pointed());
  const leave = () => pointing.leave(here);
  const onEnter = (event: Event) => {
    if (event instanceof PointerEvent && event.pointerType !== "touch") rest();
  };
  const onDown = (event: Event) => {
    isTouch = event instanceof PointerEvent && event.pointerType === "touch";
  };
  const onClick = (event: Event) => {
    if (!isTouch || event.defaultPrevented) return;
    isTouch = false;
    pointing.choose(pointed());
  };
  const onFocus = (event: Event) => {
    if (event.target instanceof Element && event.target.matches(":focus-visible")) rest();
  };
  return (element) => {
    const listeners = {
      pointerenter: onEnter,
      pointerleave: leave,
      pointerdown: onDown,
      click: onClick,
      focusin: onFocus,
      focusout: leave,
    };
    for (const [kind, listener] of Object.entries(listeners)) {
      element.addEventListener(kind, listener, { passive: true });
    }
    onCleanup(leave);
  };
}

/** A slot's grip struck once, as it is or with changes. */
export function pointedSlot({ bar, lane, slot }: SlotPlace, edits: readonly LaneEdit[]): Pointed {
  return { bars: { kind: "once", from: bar, to: bar }, lane, edits, slot, needsBoth: false };
}

/** Bars played once, as they are or with changes; undefined when they are gone. */
export function pointedBars(
  chart: Pick<Board, "sections">,
  bars: readonly BarId[],
  { lane, edits }: Pick<Pointed, "lane" | "edits">,
): Pointed | undefined {
  const ends = chartEnds(chart, bars);
  return (
    ends && { bars: { kind: "once", ...ends }, lane, edits, slot: undefined, needsBoth: false }
  );
}
