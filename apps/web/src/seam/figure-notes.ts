/** The notes of fills and lines as the seam shows them: at their pitch, over their time. */
import type { Bar, Lane, Section, SlotId } from "@halflap/board/board";
import { pitchAt } from "@halflap/theory/tuning";
import type { MidiNote } from "@halflap/theory/units";
import { fillsReaching } from "../playing/playing-figure.ts";

/** A note of a fill or line; `from` and `to` are shares of the bar, 0 = its start, 1 = its end. */
export type FigureNote = {
  readonly pitch: MidiNote;
  readonly from: number;
  readonly to: number;
  /** The slot in which it begins. */
  readonly slot: SlotId | undefined;
};

/** Everything that the lane's figures sound in a bar of its section; nothing where it rests. */
export function figureNotes(
  lane: Pick<Lane, "fills" | "layOuts" | "setup">,
  section: Pick<Section, "bars">,
  bar: Bar,
): readonly FigureNote[] {
  if (lane.layOuts.has(bar.id)) return [];
  return fillsReaching(lane.fills, section, bar).flatMap(({ notes }) =>
    notes.flatMap(({ at, start, note }): readonly FigureNote[] => {
      const pitch = pitchAt(lane.setup, note.string, note.fret);
      if (pitch === undefined) return [];
      const to = Math.min(1, at + note.length / bar.length);
      const slot = bar.slots.filter((each) => each.start <= start).at(-1)?.id;
      return [{ pitch, from: at, to, slot }];
    }),
  );
}

/** The slots in which the grip is never struck, because a figure is played from end to end. */
export function coveredSlots(
  lane: Pick<Lane, "fills">,
  section: Pick<Section, "bars">,
  bar: Bar,
): ReadonlySet<SlotId> {
  const figures = fillsReaching(lane.fills, section, bar).filter(
    ({ fill }) => fill.notes.length > 0,
  );
  const covered = bar.slots.filter((slot) =>
    figures.some(({ start, end }) => start <= slot.start && end >= slot.start + slot.length),
  );
  return new Set(covered.map(({ id }) => id));
}

/** Every pitch that a lane's figures sound anywhere, so that the seam has room for it. */
export function figurePitches({ fills, setup }: Pick<Lane, "fills" | "setup">): MidiNote[] {
  return [...fills.values()].flatMap(({ notes }) =>
    notes.flatMap(({ string, fret }) => pitchAt(setup, string, fret) ?? []),
  );
}
