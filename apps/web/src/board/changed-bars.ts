/** Which bars of a lane changed between two states of it. */
import type { BarId, Lane, Section } from "@halflap/board/board";

/** The part of a lane that is told as news. */
export type LaneContent = Pick<Lane, "grips" | "layOuts" | "marks">;

/** The numbers of the bars in which a grip, a lay-out or a mark is new, other or gone. */
export function changedBars(
  before: LaneContent,
  after: LaneContent,
  sections: readonly Section[],
): readonly number[] {
  if (before.grips === after.grips && before.layOuts === after.layOuts) {
    if (before.marks === after.marks) return [];
  }
  const differs = (bar: BarId) =>
    before.layOuts.has(bar) !== after.layOuts.has(bar) ||
    before.marks.get(bar) !== after.marks.get(bar);
  return sections
    .flatMap((section) => section.bars)
    .filter(
      (bar) =>
        differs(bar.id) ||
        bar.slots.some((slot) => before.grips.get(slot.id) !== after.grips.get(slot.id)),
    )
    .map((bar) => bar.number);
}
