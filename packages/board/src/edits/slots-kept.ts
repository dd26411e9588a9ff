/** Which slots of a bar stay what they are when its text is written anew. */
import type { Bar, Slot, SlotId } from "../board.ts";
import { isHeld, ownSlot } from "../ids.ts";
import type { ChordAt } from "./stored.ts";

export type KeptSlot = ChordAt & {
  readonly id: SlotId;
  readonly moved: boolean;
  readonly changed: boolean;
};

export type SlotChange = {
  readonly kept: readonly KeptSlot[];
  readonly gone: readonly SlotId[];
  readonly fresh: readonly ChordAt[];
};

/**
 * Pairs what is written with the slots that stand: first the same chord at the same start, then the
 * same chord in order, then another chord at the same start. What is left is fresh, or gone.
 * A chord that already goes on from the bar before needs no slot.
 */
export function slotsKept(bar: Bar, written: readonly ChordAt[]): SlotChange {
  const held = bar.slots.find((slot) => isHeld(slot.id));
  const free = bar.slots.filter((slot) => !isHeld(slot.id));
  let open = written.filter((each) => each.at !== held?.start || each.chord !== held.text);
  const kept: KeptSlot[] = [];
  const rules: readonly ((slot: Slot, each: ChordAt) => boolean)[] = [
    (slot, each) => slot.start === each.at && slot.text === each.chord,
    (slot, each) => slot.text === each.chord,
    (slot, each) => slot.start === each.at,
  ];
  for (const pairs of rules) {
    open = open.filter((each) => {
      const i = free.findIndex((slot) => pairs(slot, each));
      const slot = i < 0 ? undefined : free.splice(i, 1)[0];
      if (slot === undefined) return true;
      const moved = slot.start !== each.at;
      kept.push({ ...each, id: ownSlot(slot.id), moved, changed: slot.text !== each.chord });
      return false;
    });
  }
  return { kept, gone: free.map((slot) => ownSlot(slot.id)), fresh: open };
}
