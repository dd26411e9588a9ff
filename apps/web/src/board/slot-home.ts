/** Where a chord that was taken out of its bar can stand again. */
import type { Bar, Board, LaneId, SetAside } from "@halflap/board/board";
import { laneIds } from "@halflap/board/board";
import { isHeld, ownBar, ownSlot } from "@halflap/board/ids";
import { beatOf } from "@halflap/board/meter";

/** A chord on which grips hang, and whose they are. */
export type DroppedChord = SetAside["slots"][number] & { readonly lanes: readonly LaneId[] };

export type SlotHome = { readonly bar: Bar; readonly at: number };

/** The chords set aside that would take a grip along; any other is typed as quickly as found. */
export function droppedChords(board: Pick<Board, "lanes" | "setAside">): readonly DroppedChord[] {
  const { slots } = board.setAside;
  if (slots.length === 0) return [];
  const held = laneIds.map((lane) => {
    const ids = [...board.lanes[lane].grips.keys()].map((id): string => ownSlot(id));
    return { lane, ids: new Set(ids) };
  });
  return slots.flatMap((slot) => {
    const lanes = held.filter(({ ids }) => ids.has(slot.id)).map(({ lane }) => lane);
    return lanes.length === 0 ? [] : [{ ...slot, lanes }];
  });
}

/**
 * Its old place, or where another chord starts there now the first beat of the bar on which none
 * does. Without an old bar on the board, the bar `here`; undefined where there is no room.
 */
export function homeOf(
  { sections, meter }: Pick<Board, "sections" | "meter">,
  was: SetAside["slots"][number]["was"],
  here: Bar["id"] | undefined,
): SlotHome | undefined {
  const bars = sections
    .filter(({ borrows }) => borrows === undefined)
    .flatMap((section) => section.bars);
  const old = bars.find(({ id }) => id === was?.bar);
  const bar = old ?? bars.find(({ id }) => here !== undefined && id === ownBar(here));
  if (bar === undefined) return undefined;
  const taken = new Set<number>(
    bar.slots.filter(({ id }) => !isHeld(id)).map(({ start }) => start),
  );
  const beat = beatOf(meter);
  const beats = Array.from({ length: Math.ceil(bar.length / beat) }, (_, index) => index * beat);
  const starts = old !== undefined && was !== undefined ? [was.at, ...beats] : beats;
  const at = starts.find((start) => start < bar.length && !taken.has(start));
  return at === undefined ? undefined : { bar, at };
}
