/** Whether what a change to a lane is about still is on the board. */
import type { BarId, Board, SlotId } from "./board.ts";
import type { LaneEdit, StrumPlace } from "./proposal.ts";

/** Those of the changes that have their place on the board. */
export function editsInPlace(board: Board, edits: readonly LaneEdit[]): readonly LaneEdit[] {
  const bars = new Set<BarId>();
  const slots = new Set<SlotId>();
  for (const bar of board.sections.flatMap((section) => section.bars)) {
    bars.add(bar.id);
    for (const slot of bar.slots) slots.add(slot.id);
  }
  const sections = new Set<string>(board.sections.map(({ id }) => id));
  const entries = new Set<string>(board.form.map(({ id }) => id));
  const hasPlace = (place: StrumPlace): boolean => {
    switch (place.kind) {
      case "lane":
        return true;
      case "section":
        return sections.has(place.section);
      case "bar":
        return bars.has(place.bar);
      case "pass":
        return entries.has(place.entry);
    }
  };
  return edits.filter((edit): boolean => {
    switch (edit.kind) {
      case "grip":
      case "lock":
        return slots.has(edit.slot);
      case "fill":
        return bars.has(edit.fill.bar);
      case "rest-pass":
        return entries.has(edit.entry);
      case "strum-at":
        return hasPlace(edit.place);
      case "capo":
      case "strum":
      case "strum-gone":
      case "fill-gone":
        return true;
      default:
        return bars.has(edit.bar);
    }
  });
}
