/** What is to be played, bar by bar, with the sample at which each round begins. */
import { performanceOf } from "@halflap/sound/performance";
import type { PlayEvent } from "@halflap/sound/play-event";
import { type Seconds, seconds } from "@halflap/sound/seconds";
import type { Entry, Tune } from "./entry.ts";
import type { Stretch } from "./order-of-play.ts";
import { type Plan, sampleAt, spanOf } from "./play-clock.ts";

/** Events and the sample of their time 0. */
export type Placed = { readonly events: readonly PlayEvent[]; readonly origin: number };

/** The events that start in a bar, in a round counted from the anchor. */
export type Score = (bar: { readonly index: number; readonly round: number }) => Placed;

/** How fast, and in what samples. */
type Pace = { readonly tempoFactor: number; readonly sampleRate: number };

/** For each bar of a stretch what starts in it, in seconds from the start of the stretch. */
export type Notes = readonly (readonly PlayEvent[])[];

/** Works them out. What rings at the end of a round that goes round ends there. */
export function notesOf({ board, timeline }: Tune, stretch: Stretch, tempoFactor: number): Notes {
  const { first, last, loops } = stretch;
  const options = { range: { first, last }, rounds: 1, tempoFactor, countIn: 0 };
  const { events, bars, end } = performanceOf(board, timeline, options);
  const starts = bars.map(({ start }) => start);
  return groupByBar(loops ? events.map((event) => cutOff(event, end)) : events, starts);
}

/** The notes of a plan's stretch, round after round from its anchor. */
export function makeScore({ bars, stretch, anchor }: Plan, notes: Notes): Score {
  const { from, to } = spanOf(bars, stretch) ?? { from: 0, to: 0 };
  return ({ index, round }) => ({
    events: notes[index - stretch.first] ?? [],
    origin: sampleAt(anchor, from + round * (to - from)),
  });
}

/** The clicks before the first bar, which end at the anchor. */
export function countInScore(
  { board, timeline }: Tune,
  { plan, index, counted }: Pick<Entry, "plan" | "index" | "counted">,
  { tempoFactor, sampleRate }: Pace,
): Placed {
  const range = { first: index, last: index };
  const options = { range, rounds: 1, tempoFactor, countIn: counted };
  const { events, musicStart } = performanceOf(board, timeline, options);
  return {
    events: events.filter(({ part }) => part === "count-in"),
    origin: plan.anchor.sample - Math.round(musicStart * sampleRate),
  };
}

/** Both by start. What starts after the last bar's start belongs to it. */
function groupByBar(events: readonly PlayEvent[], starts: readonly Seconds[]): Notes {
  const groups: PlayEvent[][] = starts.map(() => []);
  let bar = 0;
  for (const event of events) {
    while ((starts[bar + 1] ?? Number.POSITIVE_INFINITY) <= event.start) bar += 1;
    groups[bar]?.push(event);
  }
  return groups;
}

/** The event, over at the end of its round. */
export function cutOff(event: PlayEvent, end: Seconds): PlayEvent {
  if (event.kind !== "guitar" && event.kind !== "bass") return event;
  return { ...event, end: seconds(Math.max(event.start, Math.min(event.end, end))) };
}
