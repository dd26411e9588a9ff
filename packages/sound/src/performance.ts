/** From a board and its timeline to everything that sounds, in seconds from the start. */
import type { Board } from "@halflap/board/board";
import { beatOf } from "@halflap/board/meter";
import { assert, ticks } from "@halflap/theory/units";
import type { PlayedBar, Timeline } from "@halflap/timeline/timeline";
import { barsInPlay, beatsOf, type Clock, type Round } from "./bars-in-play.ts";
import { bassLine } from "./bass-line.ts";
import { drumPattern } from "./drum-pattern.ts";
import { guitarNotes, strokesBetween } from "./guitar-notes.ts";
import type { Click, PlayEvent } from "./play-event.ts";
import { type Seconds, seconds } from "./seconds.ts";

export type PerformanceOptions = {
  /** The first and the last bar, counted from 0 in the order of play. */
  readonly range: { readonly first: number; readonly last: number };
  readonly rounds: number;
  /** 1 = as the board says. */
  readonly tempoFactor: number;
  /** Bars of clicks before the first round. */
  readonly countIn: number;
};

/** A bar as it comes up: which, in which round, and when. */
export type BarHeard = {
  /** Counted from 0 in the order of play. */
  readonly index: number;
  readonly round: number;
  readonly start: Seconds;
};

export type Performance = {
  /** By start. */
  readonly events: readonly PlayEvent[];
  readonly bars: readonly BarHeard[];
  /** When the count-in is over. */
  readonly musicStart: Seconds;
  /** When the last bar is over; what rings may go on. */
  readonly end: Seconds;
};

/** What may be asked for. */
export const tempoFactorMin = 0.4;
export const tempoFactorMax = 1.5;
export const roundsMax = 200;
export const countInMax = 4;

/** The whole tune once, as fast as the board says, counted in as it says. */
export function wholeTune(board: Board, timeline: Timeline): PerformanceOptions {
  const last = Math.max(0, barsInPlay(timeline).length - 1);
  const countIn = Math.min(countInMax, board.countIn);
  return { range: { first: 0, last }, rounds: 1, tempoFactor: 1, countIn };
}

/** Everything that sounds, each event once. Nothing at all where the form has no bars. */
export function performanceOf(
  board: Board,
  timeline: Timeline,
  options: PerformanceOptions,
): Performance {
  const { range, rounds, tempoFactor } = options;
  const bars = barsInPlay(timeline).slice(range.first, range.last + 1);
  const [first, last] = [bars[0], bars.at(-1)];
  if (first === undefined || last === undefined) return nothing;
  checkOptions(options);
  const secondsPerTick = 60 / (board.tempo * tempoFactor) / beatOf(board.meter);
  const counted = options.countIn * first.played.bar.length;
  const from = first.start;
  const to = ticks(last.start + last.played.bar.length);
  const lanes = strokesBetween(board, timeline, from, to);
  const heard: BarHeard[] = [];
  const events: PlayEvent[] = countIn(board, first.played, options.countIn, secondsPerTick);
  for (let index = 0; index < rounds; index += 1) {
    // From ticks that are whole numbers, never from a sum of seconds: so no round drifts.
    const before = counted + index * (to - from) - from;
    const clock: Clock = (at) => seconds((before + at) * secondsPerTick);
    const goesOn = index < rounds - 1;
    const round: Round = { board, bars, from, to, goesOn, clock, swing: timeline.swing };
    for (const [place, { start }] of bars.entries()) {
      heard.push({ index: range.first + place, round: index, start: clock(start) });
    }
    const guitars = lanes.flatMap((strokes) => guitarNotes(strokes, round));
    const backing = [...bassLine(round), ...drumPattern(round), ...clicks(round)];
    for (const event of [...guitars, ...backing]) events.push(event);
  }
  return {
    events: events.sort((a, b) => a.start - b.start),
    bars: heard,
    musicStart: seconds(counted * secondsPerTick),
    end: seconds((counted + rounds * (to - from)) * secondsPerTick),
  };
}

const nothing: Performance = {
  events: [],
  bars: [],
  musicStart: seconds(0),
  end: seconds(0),
};

function checkOptions({ range, rounds, tempoFactor, countIn }: PerformanceOptions): void {
  assert(range.first >= 0 && range.first <= range.last, "bars run forwards");
  assert(Number.isInteger(rounds) && rounds >= 1 && rounds <= roundsMax, "not rounds", rounds);
  assert(tempoFactor >= tempoFactorMin && tempoFactor <= tempoFactorMax, "too slow or fast");
  assert(Number.isInteger(countIn) && countIn >= 0 && countIn <= countInMax, "no count", countIn);
}

function countIn(board: Board, first: PlayedBar, count: number, secondsPerTick: number): Click[] {
  const beats = beatsOf(board, first);
  return Array.from({ length: count }, (_, bar) =>
    beats.map((at): Click => {
      const start = seconds((bar * first.bar.length + at) * secondsPerTick);
      return { kind: "click", part: "count-in", isFirst: at === 0, start };
    }),
  ).flat();
}

function clicks({ board, bars, clock }: Round): readonly Click[] {
  return bars.flatMap(({ played, start }) =>
    beatsOf(board, played).map((at): Click => {
      return { kind: "click", part: "click", isFirst: at === 0, start: clock(start + at) };
    }),
  );
}
