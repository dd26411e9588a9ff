/** A Board as it would be after changes to one of its lanes, without touching a document. */
import { decodeGrip } from "@halflap/theory/grip";
import type { Board, LaneId, SlotId } from "./board.ts";
import { type ChordOf, changeLane } from "./change-lane.ts";
import { idsOf } from "./chart-ids.ts";
import { fillLaneStore, laneCopyOf } from "./lane-copy.ts";
import { readLaneState } from "./lane-state.ts";
import { plainStore } from "./lane-store.ts";
import type { LaneEdit } from "./proposal.ts";
import { share } from "./share.ts";

/**
 * What reading gives once `applyLaneEdits` made the same changes with `chordOfBoard`; everything
 * they don't touch is the same object as before.
 */
export function editedBoard(board: Board, lane: LaneId, edits: readonly LaneEdit[]): Board {
  const { id, owner, ...before } = board.lanes[lane];
  const store = plainStore();
  fillLaneStore(store, laneCopyOf(before));
  const chordOf = chordOfBoard(board);
  for (const edit of edits) changeLane(store, edit, chordOf);
  const after = readLaneState(store, idsOf(board.sections, board.form), decodeGrip);
  return share(board, { ...board, lanes: { ...board.lanes, [lane]: { id, owner, ...after } } });
}

/** The chord texts of a Board by slot. */
export function chordOfBoard(board: Board): ChordOf {
  const texts = new Map<SlotId, string>();
  for (const section of board.sections) {
    for (const bar of section.bars) for (const slot of bar.slots) texts.set(slot.id, slot.text);
  }
  return (slot) => texts.get(slot);
}
