/**
 * When each bar of the tune comes, from the chart and the form alone: enough to say where others
 * are, without working out what the hands do.
 */
import type { Board } from "@halflap/board/board";
import { beatOf } from "@halflap/board/meter";
import { ticks } from "@halflap/theory/units";
import type { BarInOrder, Loop } from "../order-of-play.ts";
import { boardThatReaches, sectionMeant } from "../sections-alone.ts";

/** What of a board says when its bars come. */
export type Timed = Pick<Board, "sections" | "form" | "tempo" | "meter">;

export type Course = {
  readonly bars: readonly BarInOrder[];
  /** At the tempo that the board says. */
  readonly msPerTick: number;
};

/** The course of a board while `loop` goes round, which may lie outside of the form. */
export function courseOf(board: Timed, loop: Loop | undefined): Course {
  const { sections, form, tempo, meter } = boardThatReaches(
    board,
    sectionMeant(board, loop, undefined),
  );
  const known = new Map(sections.map((section) => [section.id, section.bars]));
  const bars: BarInOrder[] = [];
  let start = 0;
  for (const { id: entry, section, times } of form) {
    for (let round = 1; round <= times; round += 1) {
      for (const { id: bar, length, rounds } of known.get(section) ?? []) {
        if (rounds !== undefined && !rounds.includes(round)) continue;
        bars.push({ bar, section, entry, round, start: ticks(start), length });
        start += length;
      }
    }
  }
  return { bars, msPerTick: 60_000 / tempo / beatOf(meter) };
}

/** Whether every bar of both comes at the same time. */
export function isSameCourse(a: Course, b: Course): boolean {
  return a.msPerTick === b.msPerTick && hasSameBars(a.bars, b.bars);
}

/** Whether two orders of play have the same bars of the same lengths. */
export function hasSameBars(a: readonly BarInOrder[], b: readonly BarInOrder[]): boolean {
  return a.length === b.length && a.every((bar, index) => isSameBar(bar, b[index]));
}

function isSameBar(a: BarInOrder, b: BarInOrder | undefined): boolean {
  return a.bar === b?.bar && a.entry === b.entry && a.round === b.round && a.length === b.length;
}
