/** Slots and bars found again by their ids, as places to go to. */
import type { Bar, BarId, LaneId, Section, Slot, SlotId } from "@halflap/board/board";
import type { LaneEdit } from "@halflap/board/proposal";
import type { SlotPlace } from "../board/desk.ts";

type Sections = readonly Section[];

/** A slot with its bar and section; undefined when it is gone. */
export function slotWithBar(
  sections: Sections,
  slot: SlotId,
): { readonly section: Section; readonly bar: Bar; readonly slot: Slot } | undefined {
  for (const section of sections) {
    for (const bar of section.bars) {
      const found = bar.slots.find(({ id }) => id === slot);
      if (found !== undefined) return { section, bar, slot: found };
    }
  }
  return undefined;
}

/** The place of a slot in a lane; undefined when it is gone. */
export function placeOfSlot(sections: Sections, lane: LaneId, slot: SlotId): SlotPlace | undefined {
  const found = slotWithBar(sections, slot);
  return found && { kind: "slot", lane, bar: found.bar.id, slot };
}

/** The first place of a bar in a lane, and the bar's number; undefined when it is gone. */
export function placeOfBar(
  sections: Sections,
  lane: LaneId,
  bar: BarId,
): { readonly place: SlotPlace; readonly number: number } | undefined {
  const found = sections.flatMap(({ bars }) => bars).find(({ id }) => id === bar);
  const [slot] = found?.slots ?? [];
  if (found === undefined || slot === undefined) return undefined;
  return { place: { kind: "slot", lane, bar, slot: slot.id }, number: found.number };
}

/** The bars that some changes are about, in chart order; all bars when none says where it is. */
export function barsOfEdits(sections: Sections, edits: readonly LaneEdit[]): readonly BarId[] {
  const slots = new Set(edits.flatMap((edit) => ("slot" in edit ? [edit.slot] : [])));
  const named = new Set(
    edits.flatMap((edit) => {
      if ("bar" in edit) return [edit.bar];
      return edit.kind === "fill" ? [edit.fill.bar] : [];
    }),
  );
  const bars = sections.flatMap((section) => section.bars);
  const touched = bars.filter(({ id, slots: here }) => {
    return named.has(id) || here.some((slot) => slots.has(slot.id));
  });
  return (touched.length === 0 ? bars : touched).map(({ id }) => id);
}
