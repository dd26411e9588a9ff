/** Where the bars and slots of a board stand, for all proposals together. */
import type { Bar, BarId, Board, Section, Slot, SlotId } from "@halflap/board/board";
import { remembered } from "@halflap/board/remembered";
import { createMemo, createRoot } from "solid-js";

type BarPlace = { readonly bar: Bar; readonly section: Section };
type SlotPlace = BarPlace & { readonly slot: Slot };

export type ChartPlaces = {
  readonly bars: ReadonlyMap<BarId, BarPlace>;
  readonly slots: ReadonlyMap<SlotId, SlotPlace>;
};

/**
 * The places on a board, live where the board is: one memo for each board, told of bars and slots
 * that come, go and move, and of nothing that is said of them.
 */
export const placesOn = remembered((board: Board) =>
  createRoot(() => createMemo((): ChartPlaces => placesOf(board))),
);

function placesOf(board: Board): ChartPlaces {
  const places = board.sections.flatMap((section) =>
    section.bars.map((bar): BarPlace => ({ bar, section })),
  );
  const slots = places.flatMap((place) =>
    place.bar.slots.map((slot) => [slot.id, { ...place, slot }] as const),
  );
  return { bars: new Map(places.map((place) => [place.bar.id, place])), slots: new Map(slots) };
}
