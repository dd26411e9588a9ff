/** Held notes of fills and lines that a grip of the other lane may rub against: R10 in time. */
import { type Board, type LaneId, laneIds, type SlotId } from "@halflap/board/board";
import { barsAhead, isSamePassage } from "@halflap/checker/bar-by-bar";
import { gripStretches, heldNotes } from "@halflap/checker/fill-rub";
import type { Severity } from "@halflap/checker/finding";
import { isLong, rubsBetween } from "@halflap/checker/rub";
import { type CheckedBar, soundingChord, type Tune } from "@halflap/checker/tune";
import type { SoundingChord } from "@halflap/theory/chord";
import type { MidiNote } from "@halflap/theory/units";
import type { HeldGrip } from "../grips/held-grip.ts";
import type { Played } from "./played.ts";

/** A note of the other lane's figure that is held over the grip of a slot. */
export type FigureNote = {
  readonly pitch: MidiNote;
  readonly times: number;
  readonly chord: SoundingChord | undefined;
};

/** What a rub with such a note is: the rule's own word. */
export const figureRub: Severity = "fix";

/**
 * The notes held over the grips of a lane in a slot, each as often as it is played. Whether the
 * figure's own grip has the note too, which R10 asks, is left open: it may only cost too much.
 */
export function figureNotes(board: Board, { passages, tune }: Played) {
  const notes = new Map<string, FigureNote[]>();
  for (const { passage, times } of passages) {
    for (const [index, bar] of passage.bars.entries()) {
      if (laneIds.every((lane) => bar.played.lanes[lane].figures.length === 0)) continue;
      const ahead = barsAhead(passage, index).filter((next) => isSamePassage(bar, next));
      for (const { lane, slot, ...note } of heldOver(board, [bar, ...ahead], tune)) {
        const name = `${lane} ${slot}`;
        notes.set(name, [...(notes.get(name) ?? []), { ...note, times }]);
      }
    }
  }
  return (lane: LaneId, slot: SlotId): readonly FigureNote[] => notes.get(`${lane} ${slot}`) ?? [];
}

/** How often a grip rubs with them, each time it is played. */
export function rubsWith(
  notes: readonly FigureNote[],
  held: HeldGrip,
  tune: Pick<Tune, "blueNotes">,
): number {
  return notes.reduce((sum, { pitch, times, chord }) => {
    const rubs = rubsBetween({ upper: [pitch], lower: held.pitches }, chord, tune);
    return rubs.some(({ declared }) => !declared) ? sum + times : sum;
  }, 0);
}

type HeldOver = Omit<FigureNote, "times"> & { readonly lane: LaneId; readonly slot: SlotId };

/** The notes struck in the first bar, with the slots of the other lane over which they are held. */
function heldOver(
  { silences }: Board,
  [bar, ...ahead]: readonly CheckedBar[],
  tune: Tune,
): readonly HeldOver[] {
  if (bar === undefined) return [];
  return laneIds.flatMap((from) => {
    const lane = from === "upper" ? "lower" : "upper";
    return heldNotes(bar, from, tune).flatMap((note) =>
      [bar, ...ahead].flatMap((under) =>
        under.segments.flatMap((segment): HeldOver[] => {
          const isAgreed = silences.some(
            ({ rule, bars }) => rule === "R10" && bars.includes(segment.bar.id),
          );
          if (isAgreed || segment[lane] === undefined) return [];
          const over = gripStretches(under, segment, lane).filter(({ start, end }) =>
            isLong(Math.min(end, note.end) - Math.max(start, note.start), tune.limits),
          );
          const chord = soundingChord(segment);
          return over.map(() => ({ lane, slot: segment.slot.id, pitch: note.pitch, chord }));
        }),
      ),
    );
  });
}
