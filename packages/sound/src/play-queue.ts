/** What is still to be played, by sample, with ends apart from starts. */
import { assert } from "@halflap/theory/units";
import type { PlayEvent } from "./play-event.ts";

/** One turn: an event starts or ends. */
export type Turn = {
  /** Counted from the start of all sound. */
  readonly sample: number;
  readonly kind: "start" | "end";
  readonly event: PlayEvent;
  /** The sample at which its event starts. */
  readonly starts: number;
  readonly generation: number;
};

export type PlayQueue = {
  readonly add: (turns: readonly Turn[]) => void;
  /** Takes the next turn at or before a sample; undefined when there is none. */
  readonly take: (sample: number) => Turn | undefined;
  /** The sample of the next turn; undefined when nothing waits. */
  readonly next: () => number | undefined;
  /** Drops what starts at or after a sample and belongs to an earlier generation. */
  readonly drop: (fromSample: number, beforeGeneration: number) => void;
  readonly clear: () => void;
};

/** So many turns wait at once at most: an hour of sixteenths on twelve strings, and both ends. */
export const turnsMax = 2_000_000;

/** An empty queue. */
export function makePlayQueue(): PlayQueue {
  let turns: Turn[] = [];
  let taken = 0;
  const waiting = () => turns.slice(taken);
  return {
    add: (added) => {
      assert(turns.length - taken + added.length <= turnsMax, "too much waits to be played");
      turns = [...waiting(), ...added].sort(byTime);
      taken = 0;
    },
    take: (sample) => {
      const turn = turns[taken];
      if (turn === undefined || turn.sample > sample) return undefined;
      taken += 1;
      return turn;
    },
    next: () => turns[taken]?.sample,
    drop: (fromSample, beforeGeneration) => {
      turns = waiting().filter(
        ({ starts, generation }) => starts < fromSample || generation >= beforeGeneration,
      );
      taken = 0;
    },
    clear: () => {
      turns = [];
      taken = 0;
    },
  };
}

/** At one sample what ends comes before what starts; else in the order of adding. */
function byTime(a: Turn, b: Turn): number {
  return a.sample - b.sample || (a.kind === b.kind ? 0 : a.kind === "end" ? -1 : 1);
}
