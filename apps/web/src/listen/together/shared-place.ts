/** Where the tune stands that is played together; all times are the server's, in ms. */
import type { SharedPlay } from "@halflap/wire/together";
import { type BarInOrder, type Loop, type Stretch, stretchOf } from "../order-of-play.ts";
import { type Moment, momentAt, type Outline, runningStart, spanOf } from "../play-clock.ts";
import type { Course } from "./course.ts";

/** A bar and when it starts. */
export type ComingBar = { readonly index: number; readonly atMs: number };

/** The plan of what is played, in ms instead of samples; undefined where there is no bar. */
export function outlineOf(course: Course, play: SharedPlay): Outline | undefined {
  const { bars, msPerTick } = course;
  const stretch = stretchAt(bars, play.loop, play.tick);
  if (stretch === undefined) return undefined;
  const samplesPerTick = (msPerTick * 100) / play.percent;
  return { bars, stretch, anchor: { sample: play.atMs, tick: play.tick, samplesPerTick } };
}

/** What goes round where the tune stands at a tick; all of it when those bars are gone. */
export function stretchAt(
  bars: readonly BarInOrder[],
  loop: Loop | undefined,
  tick: number,
): Stretch | undefined {
  const near = indexAt(bars, tick);
  return stretchOf(bars, loop, near) ?? stretchOf(bars, undefined, near);
}

/** The bar in which a tick lies. */
export function indexAt(bars: readonly BarInOrder[], tick: number): number {
  const after = bars.findIndex(({ start }) => start > tick);
  return Math.max(0, (after < 0 ? bars.length : after) - 1);
}

/** Which bar sounds; "before" it begins, or when it is "over". */
export function placeAt(outline: Outline, atMs: number): Moment | "before" | "over" {
  if (atMs < outline.anchor.sample) return "before";
  return momentAt(outline, atMs) ?? "over";
}

/** The first bar that starts at this time or later; undefined when the tune is over by then. */
export function comingBar(outline: Outline, fromMs: number): ComingBar | undefined {
  const { bars, stretch, anchor } = outline;
  const place = placeAt(outline, fromMs);
  if (place === "over") return undefined;
  if (place === "before") return { index: indexAt(bars, anchor.tick), atMs: anchor.sample };
  const next = barAfter(place, stretch);
  if (next === undefined || spanOf(bars, stretch) === undefined) return undefined;
  const atMs = anchor.sample + (runningStart(outline, next) - anchor.tick) * anchor.samplesPerTick;
  return { index: next.index, atMs };
}

/** The bar after one, and in which round; undefined after the last. */
export function barAfter(
  { index, round }: Pick<Moment, "index" | "round">,
  { first, last, loops }: Stretch,
): { readonly index: number; readonly round: number } | undefined {
  if (index < last) return { index: index + 1, round };
  return loops ? { index: first, round: round + 1 } : undefined;
}
