/**
 * The slots that come before and after one, in the order of the chart, and the grips that lie
 * there.
 */
import type { Lane, Section, Slot, SlotId } from "@halflap/board/board";
import type { Grip } from "@halflap/theory/grip";

/** A slot with a grip in it. */
export type Neighbour = { readonly slot: Slot; readonly grip: Grip };

export type Neighbours = {
  readonly before: Neighbour | undefined;
  readonly after: Neighbour | undefined;
};

/** Whether both sides hold the same grips in the same slots. */
export function sameNeighbours(a: Neighbours, b: Neighbours): boolean {
  const isSame = (one: Neighbour | undefined, other: Neighbour | undefined) =>
    one?.slot === other?.slot && one?.grip === other?.grip;
  return isSame(a.before, b.before) && isSame(a.after, b.after);
}

/** The nearest slots on either side in which the lane has a grip and does not lay out. */
export function neighboursOf(sections: readonly Section[], lane: Lane, slot: SlotId): Neighbours {
  const bars = sections.flatMap((section) => section.bars);
  const slots = bars.flatMap((bar) =>
    bar.slots.map((each) => ({ slot: each, rests: lane.layOuts.has(bar.id) })),
  );
  const index = slots.findIndex((each) => each.slot.id === slot);
  if (index < 0) return { before: undefined, after: undefined };
  return {
    before: firstGripped(slots.slice(0, index).reverse(), lane),
    after: firstGripped(slots.slice(index + 1), lane),
  };
}

function firstGripped(
  slots: readonly { readonly slot: Slot; readonly rests: boolean }[],
  lane: Lane,
): Neighbour | undefined {
  for (const { slot, rests } of slots) {
    const grip = rests ? undefined : lane.grips.get(slot.id);
    if (grip) return { slot, grip };
  }
  return undefined;
}
