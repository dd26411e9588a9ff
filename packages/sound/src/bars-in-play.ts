/** The bars of a tune in the order in which a band comes to them, and one round through some. */
import type { Board } from "@halflap/board/board";
import { beatOf, meterOfBar } from "@halflap/board/meter";
import { type Ticks, ticks } from "@halflap/theory/units";
import type { Swing } from "@halflap/timeline/swing";
import type { PlayedBar, Timeline } from "@halflap/timeline/timeline";
import type { Seconds } from "./seconds.ts";

/** A bar in the order of play: the n-th bar that the band comes to. */
export type BarInPlay = {
  readonly played: PlayedBar;
  /** From the start of the tune, count-in left out. */
  readonly start: Ticks;
};

/** Turns ticks of the tune into seconds of the performance, for one round. */
export type Clock = (at: number) => Seconds;

/** What one player's part is made of: bars from one place to another, and how time runs there. */
export type Round = {
  readonly board: Board;
  readonly bars: readonly BarInPlay[];
  readonly from: Ticks;
  readonly to: Ticks;
  /** Whether the next round follows at `to`; what rings then ends there. */
  readonly goesOn: boolean;
  readonly clock: Clock;
  /** How far off-beats are late where the board swings. */
  readonly swing: Swing;
};

/** All bars in the order of play. */
export function barsInPlay(timeline: Timeline): readonly BarInPlay[] {
  return timeline.passes.flatMap(({ passage, start }) =>
    passage.bars.map((played) => ({ played, start: ticks(start + played.start) })),
  );
}

/** The beats of a bar, in ticks from its start; of a bar of another length, its own. */
export function beatsOf(board: Board, played: PlayedBar): readonly Ticks[] {
  const { length } = played.bar;
  const beat = beatOf(meterOfBar(length, board.meter));
  return Array.from({ length: Math.ceil(length / beat) }, (_, index) => ticks(index * beat));
}
