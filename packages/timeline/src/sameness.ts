/** Whether what was made last time still says the same, so that it can be kept. */
import { laneIds } from "@halflap/board/board";
import { sameItems } from "./keeper.ts";
import type { LaneBarSource } from "./lane-bar.ts";
import type { Passage, PlayedBar } from "./timeline.ts";

/** Whether a lane's bar would come out the same. */
export function isSameSource(a: LaneBarSource, b: LaneBarSource): boolean {
  return (
    isShallowlySame(a, b, ["grips", "fills"]) &&
    sameItems(a.grips, b.grips) &&
    a.fills.length === b.fills.length &&
    a.fills.every((placed, index) => {
      const other = b.fills[index];
      return placed.fill === other?.fill && placed.from === other.from;
    })
  );
}

/** Whether two bars play the same. */
export function isSameBar(a: PlayedBar, b: PlayedBar): boolean {
  return (
    isShallowlySame(a, b, ["lanes"]) && laneIds.every((lane) => a.lanes[lane] === b.lanes[lane])
  );
}

/** Whether two passages hold the same bars and phrases. */
export function isSamePassage(a: Passage, b: Passage): boolean {
  return (
    a.section === b.section &&
    a.length === b.length &&
    sameItems(a.bars, b.bars) &&
    sameItems(a.next, b.next) &&
    a.endsTune === b.endsTune &&
    sameThings(a.sung, b.sung) &&
    sameThings(a.gaps, b.gaps)
  );
}

function sameThings<T extends object>(a: readonly T[], b: readonly T[]): boolean {
  return (
    a.length === b.length &&
    a.every((item, index) => {
      const other = b[index];
      return other !== undefined && isShallowlySame(item, other, []);
    })
  );
}

function isShallowlySame<T extends object>(a: T, b: T, except: readonly (keyof T)[]): boolean {
  const fields = Object.keys(a) as (keyof T)[];
  return fields.every((field) => except.includes(field) || a[field] === b[field]);
}
