/**
 * What is asked of the server when somebody starts, jumps, or changes how it goes: always a bar at
 * a moment a little ahead, so that every browser has it in time. All times are the server's, in ms.
 */
import type { BarId } from "@halflap/board/board";
import type { SharedPlay } from "@halflap/wire/together";
import { indexOfBar, type Loop, sameMoment } from "../order-of-play.ts";
import type { Outline } from "../play-clock.ts";
import type { Course } from "./course.ts";
import { comingBar, indexAt, outlineOf, stretchAt } from "./shared-place.ts";

/** From the ask to the moment it names: there, back to everybody, and into their audio. */
export const leadMs = 600;

/** How it is started. */
export type Start = {
  readonly bar: BarId | undefined;
  readonly loop: Loop | undefined;
  readonly percent: number;
  readonly countIn: number;
};

/** From a bar, else from where what goes round begins; undefined where there is nothing to play. */
export function startAsk(course: Course, start: Start, nowMs: number): SharedPlay | undefined {
  const { percent, countIn, loop } = start;
  const { bars, msPerTick } = course;
  const asked = bars[indexOfBar(bars, start.bar, 0) ?? 0]?.start ?? 0;
  const first = bars[insideLoop(course, loop, asked)];
  if (first === undefined) return undefined;
  const countedMs = (countIn * first.length * msPerTick * 100) / percent;
  const atMs = nowMs + leadMs + countedMs;
  return { kind: "playing", tick: first.start, atMs, percent, countIn, loop };
}

/**
 * Another tempo or loop, or the same where bars came, went or got another length: the bar that
 * would have come next comes when it would have. undefined when the tune is over by then.
 */
export function turnAsk(
  { before, after }: { readonly before: Course; readonly after: Course },
  play: SharedPlay,
  change: Partial<Pick<SharedPlay, "percent" | "loop">>,
  nowMs: number,
): SharedPlay | undefined {
  const outline = outlineOf(before, play);
  const coming = outline && comingBar(outline, nowMs + leadMs);
  if (coming === undefined || after.bars.length === 0) return undefined;
  const next = { ...play, ...change };
  const { bars } = after;
  const start = bars[sameMoment(bars, before.bars[coming.index], coming.index)]?.start ?? 0;
  const tick = bars[insideLoop(after, next.loop, start)]?.start ?? start;
  return { ...next, tick, atMs: coming.atMs, countIn: countInLeft(play, coming.atMs) };
}

/** From another bar, once the present one is over; what goes round goes on only around that bar. */
export function jumpAsk(
  course: Course,
  play: SharedPlay,
  bar: BarId,
  nowMs: number,
): SharedPlay | undefined {
  const index = indexOfBar(course.bars, bar, 0);
  const target = index === undefined ? undefined : course.bars[index];
  if (index === undefined || target === undefined) return undefined;
  const outline = outlineOf(course, play);
  const atMs = (outline && comingBar(outline, nowMs + leadMs)?.atMs) ?? nowMs + leadMs;
  const loop = insideLoop(course, play.loop, target.start) === index ? play.loop : undefined;
  return { ...play, tick: target.start, atMs, countIn: countInLeft(play, atMs), loop };
}

/**
 * What this browser plays by itself, asked for anew once nobody knows of it any more. `toServer`
 * says the server's time at a moment of the page's clock, by which `outline` is told.
 */
export function againAsk(
  outline: Outline,
  play: SharedPlay,
  pageMs: number,
  toServer: (pageMs: number) => number,
): SharedPlay | undefined {
  const coming = comingBar(outline, pageMs + leadMs);
  const tick = coming && outline.bars[coming.index]?.start;
  if (coming === undefined || tick === undefined) return undefined;
  return { ...play, tick, atMs: toServer(coming.atMs), countIn: 0 };
}

/** The bar at a tick, or the first of what goes round when that lies elsewhere. */
function insideLoop({ bars }: Course, loop: Loop | undefined, tick: number): number {
  const index = indexAt(bars, tick);
  const stretch = stretchAt(bars, loop, tick);
  if (stretch === undefined) return index;
  return index >= stretch.first && index <= stretch.last ? index : stretch.first;
}

/** A count-in that still lies ahead is kept. */
function countInLeft(play: SharedPlay, atMs: number): number {
  return play.atMs === atMs ? play.countIn : 0;
}
