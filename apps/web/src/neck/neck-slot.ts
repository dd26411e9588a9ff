/** Everything the neck panel knows about the slot it lies open on. */
import type { Bar, Lane, Slot } from "@halflap/board/board";
import { type Grip, gripPitches } from "@halflap/theory/grip";
import type { MidiNote } from "@halflap/theory/units";
import { type Accessor, createMemo } from "solid-js";
import { unwrap } from "solid-js/store";
import { type Desk, otherLane, type SlotPlace, slotAt } from "../board/desk.ts";
import { laneInSentence } from "../board/owner.ts";
import { neighboursOf, sameNeighbours } from "./neighbours.ts";

export type NeckSlot = ReturnType<typeof createNeckSlot>;

/** Follows the chosen slot; every accessor is a memo or as cheap as one. */
export function createNeckSlot(desk: Desk, place: Accessor<SlotPlace>) {
  const { session } = desk;
  const { board } = session;
  const found = createMemo(() => slotAt(board, place()));
  const lane = (): Lane => board.lanes[place().lane];
  const other = (): Lane => board.lanes[otherLane(place().lane)];
  const bar = (): Bar | undefined => found()?.bar;
  const slot = (): Slot | undefined => found()?.slot;
  const grip = createMemo(() => lane().grips.get(place().slot));
  const setup = createMemo(() => ({ ...lane().setup, tuning: [...lane().setup.tuning] }));
  const chord = createMemo(() => {
    const read = slot()?.chord;
    return read?.kind === "chord" ? unwrap(read) : undefined;
  });
  // The same for as long as they hold the same: suggestions are not sought anew for an edit here.
  const neighbours = createMemo(
    () => neighboursOf(board.sections, lane(), place().slot),
    undefined,
    { equals: sameNeighbours },
  );
  const others = createMemo<readonly MidiNote[]>(() => {
    const theirs = other().grips.get(place().slot);
    const rests = other().layOuts.has(place().bar);
    return theirs && !rests ? gripPitches(theirs, other().setup) : [];
  });
  return {
    place,
    lane,
    bar,
    slot,
    grip,
    setup,
    chord,
    neighbours,
    others,
    rests: () => lane().layOuts.has(place().bar),
    mark: () => lane().marks.get(place().bar) ?? "",
    mayWrite: () => desk.mayWrite(place().lane),
    whoseOther: () => laneInSentence(session, otherLane(place().lane)),
    key: () => board.key,
    hasBass: () => board.hasBass,
    placeGrip: (next: Grip) => session.lane()?.placeGrip(place().slot, next),
    clearGrip: () => session.lane()?.clearGrip(place().slot),
    layOut: (rest: boolean) => session.lane()?.layOut(place().bar, rest),
  };
}
