/** What is to be played, bar by bar, with the sample at which each round begins. */
import { performanceOf } from "@halflap/sound/performance";
import type { PlayEvent } from "@halflap/sound/play-event";
import { type Seconds, seconds } from "@halflap/sound/seconds";
import type { Entry, Tune } from "./entry.ts";
import { type Plan, sampleAt, spanOf } from "./play-clock.ts";

/** Events and the sample of their time 0. */
export type Placed = { readonly events: readonly PlayEvent[]; readonly origin: number };

/** The events that start in a bar, in a round counted from the anchor. */
export type Score = (bar: { readonly index: number; readonly round: number }) => Placed;

/** How fast, and in what samples. */
type Pace = { readonly tempoFactor: number; readonly sampleRate: number };

/** The score of a plan. What rings at the end of a round that goes round ends there. */
export function makeScore(
  { board, timeline }: Tune,
  { bars, stretch, anchor }: Plan,
  { tempoFactor, sampleRate }: Pace,
): Score {
  const { first, last, loops } = stretch;
  const options = { range: { first, last }, rounds: 1, tempoFactor, countIn: 0 };
  const performance = performanceOf(board, timeline, options);
  const starts = performance.bars.map(({ start }) => start);
  const byBar = groupByBar(performance.events, starts);
  const span = spanOf(bars, stretch) ?? { from: 0, to: 0 };
  const length = span.to - span.from;
  const end = seconds((length * anchor.samplesPerTick) / sampleRate);
  return ({ index, round }) => {
    const events = byBar[index - first] ?? [];
    return {
      events: loops ? events.map((event) => cutOff(event, end)) : events,
      origin: sampleAt(anchor, span.from + round * length),
    };
  };
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
function groupByBar(
  events: readonly PlayEvent[],
  starts: readonly Seconds[],
): readonly (readonly PlayEvent[])[] {
  const groups: PlayEvent[][] = starts.map(() => []);
  let bar = 0;
  for (const event of events) {
    while ((starts[bar + 1] ?? Number.POSITIVE_INFINITY) <= event.start) bar += 1;
    groups[bar]?.push(event);
  }
  return groups;
}

function cutOff(event: PlayEvent, end: Seconds): PlayEvent {
  if (event.kind !== "guitar" && event.kind !== "bass") return event;
  return { ...event, end: seconds(Math.max(event.start, Math.min(event.end, end))) };
}
