/**
 * How often members may change what `talk` tells of them: names, lanes, the lead. Each change makes
 * `talk` longer, and dearer to change, for as long as the board lives.
 */
import type { MemberId } from "@halflap/board/board";
import type { BoardId } from "@halflap/wire/api";
import {
  boardChangesDaily,
  memberChangesDaily,
  memberChangesPerMinute,
} from "@halflap/wire/limits";
import { Refused } from "./answers.ts";
import { Rates } from "./rate.ts";

/** Counts a change that is about to be made. Throws Refused when it is one too many. */
export type CountChange = (board: BoardId, member: MemberId) => void;

/** One for all routes that make such changes; `now` in milliseconds. */
export function changeRates(now: () => number): CountChange {
  const inMinute = { perMinute: memberChangesPerMinute, burst: memberChangesPerMinute };
  const ofMember = [new Rates(inMinute, now), daily(memberChangesDaily, now)];
  const ofBoard = daily(boardChangesDaily, now);
  return (board, member) => {
    // The member's own first: what is refused there takes nothing from the others on the board.
    const isWithin = ofMember.every((rates) => rates.take(`${board}/${member}`));
    if (!isWithin || !ofBoard.take(board)) throw tooOften();
  };
}

function daily(changes: number, now: () => number): Rates {
  return new Rates({ perMinute: changes / (24 * 60), burst: changes }, now);
}

function tooOften(): Refused {
  return new Refused("too-many", "Names and lanes change too often here; wait a little.");
}
