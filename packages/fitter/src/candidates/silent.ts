/** The slots in which a lane has no grip to choose, and why. */
import type { Bar, Board, LaneId, Slot, SlotId } from "@halflap/board/board";
import { type CheckedBar, preparedBoard } from "@halflap/checker/tune";
import { pretty } from "@halflap/theory/display";
import { gripOf } from "@halflap/theory/grip";
import { stringNumbers } from "@halflap/theory/tuning";
import { fret } from "@halflap/theory/units";

/** What happens in a slot in all passes together. */
type Played = { rests: boolean; sounds: boolean; hasLine: boolean };

/** Open strings: a grip that sounds on any neck, to see where one would be heard. */
const anyGrip = gripOf(stringNumbers.map(() => fret(0)));

/**
 * A sentence for each slot in which no grip of the lane would ever be heard: no chord to read, a
 * rest in every pass, a line in its place, a pattern that strikes nothing there. A grip is heard
 * as the checker hears it. SPEC.md W5.
 */
export function silentSlots(board: Board, lane: LaneId): ReadonlyMap<SlotId, string> {
  const played = playedSlots(withGripsIn(board, lane), lane);
  const silent = new Map<SlotId, string>();
  for (const bar of board.sections.flatMap((section) => section.bars)) {
    for (const slot of bar.slots) {
      const words = chordWords(slot, bar) ?? playingWords(slot, bar, played.get(slot.id));
      if (words !== undefined) silent.set(slot.id, words);
    }
  }
  return silent;
}

/** "Gm7 in bar 3", for the eye. */
export function slotWords({ text }: Slot, { number }: Bar): string {
  return `${pretty(text)} in bar ${number}`;
}

function chordWords(slot: Slot, bar: Bar): string | undefined {
  if (slot.chord?.kind === "chord") return undefined;
  if (slot.chord !== undefined) return `Bar ${bar.number} has no chord to play there: N.C.`;
  return slot.text === ""
    ? `No chord is written in bar ${bar.number}.`
    : `“${slot.text}” in bar ${bar.number} can't be read as a chord.`;
}

function playingWords(slot: Slot, bar: Bar, played: Played | undefined): string | undefined {
  if (played === undefined) return `Bar ${bar.number} is played in no round.`;
  if (played.sounds) return undefined;
  const where = slotWords(slot, bar);
  if (played.rests) return `${where}: this part rests there.`;
  return played.hasLine
    ? `${where}: a line is played in place of a grip.`
    : `${where}: the strum pattern strikes nothing there.`;
}

/** The board with a grip of the lane in every slot. */
function withGripsIn(board: Board, lane: LaneId): Board {
  const bars = board.sections.flatMap((section) => section.bars);
  const slots = bars.flatMap((bar) => bar.slots);
  const grips = new Map(slots.map(({ id }) => [id, anyGrip]));
  return { ...board, lanes: { ...board.lanes, [lane]: { ...board.lanes[lane], grips } } };
}

function playedSlots(board: Board, lane: LaneId): ReadonlyMap<SlotId, Played> {
  const slots = new Map<SlotId, Played>();
  for (const bar of preparedBoard(board).passages.flatMap(({ bars }) => bars)) {
    for (const segment of bar.segments) {
      const { id } = segment.slot;
      const known = slots.get(id) ?? { rests: true, sounds: false, hasLine: false };
      slots.set(id, {
        rests: known.rests && segment.rests[lane],
        sounds: known.sounds || segment[lane] !== undefined,
        hasLine: known.hasLine || hasLineIn(bar, segment.slot, lane),
      });
    }
  }
  return slots;
}

function hasLineIn({ played }: CheckedBar, slot: Slot, lane: LaneId): boolean {
  return played.lanes[lane].figures.some(
    ({ start, end }) => start < slot.start + slot.length && end > slot.start,
  );
}
