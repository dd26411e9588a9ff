/** A Board as it would be after changes to one of its lanes, without touching a document. */
import { decodeGrip, type Grip, printGrip } from "@halflap/theory/grip";
import type { BarId, Board, FormEntryId, LaneId, SlotId } from "./board.ts";
import { type ChordOf, changeLane } from "./change-lane.ts";
import { idsOf } from "./chart-ids.ts";
import { withFirstPasses } from "./first-passes.ts";
import { fillLaneStore, laneCopyOf } from "./lane-copy.ts";
import { readLaneState } from "./lane-state.ts";
import { plainStore } from "./lane-store.ts";
import type { LaneEdit } from "./proposal.ts";
import { remembered } from "./remembered.ts";
import { share } from "./share.ts";
import { waitingAfter } from "./waiting.ts";
import { usualWishes } from "./wishes.ts";

/** A lane that plays nothing yet: what changes to grips and rests leave alone need not be read. */
const nothingElse = {
  ...{ marks: new Map(), strums: new Map(), fills: new Map(), dynamics: new Map() },
  strumming: { lane: undefined, sections: new Map(), bars: new Map(), passes: new Map() },
  ...{ palmMutes: new Set<BarId>(), letRings: new Set<BarId>() },
  restingPasses: new Set<FormEntryId>(),
  wishes: usualWishes,
} as const;

/**
 * What reading gives once `applyLaneEdits` made the same changes with `chordOfBoard`; everything
 * they don't touch is the same object as before.
 */
export function editedBoard(board: Board, lane: LaneId, edits: readonly LaneEdit[]): Board {
  const { id, owner, ...before } = board.lanes[lane];
  const isHeldOnly = edits.every(({ kind }) => kind === "grip" || kind === "lay-out");
  const store = plainStore();
  fillLaneStore(store, laneCopyOf(isHeldOnly ? { ...before, ...nothingElse } : before));
  const chordOf = chordOfBoard(board);
  for (const edit of edits) changeLane(store, edit, chordOf);
  const ids = idsIn(board);
  const counted = withFirstPasses(store, board.form);
  const read = readLaneState(counted, ids, decodingOf(before.grips));
  const { grips, chosenFor, layOuts } = read;
  const after = isHeldOnly ? { ...before, grips, chosenFor, layOuts } : read;
  const lanes = { ...board.lanes, [lane]: { id, owner, ...after } };
  if (isHeldOnly) return share(board, { ...board, lanes });
  const waiting = waitingAfter(board, lane, edits, store.fills, ids);
  return share(board, { ...board, lanes, setAside: { ...board.setAside, waiting } });
}

/** One board is often changed in many ways, to see which is best. */
const idsIn = remembered(({ sections, form }: Board) => idsOf(sections, form));

/** Reads grips that are known already as the same objects. */
const decodingOf = remembered((grips: ReadonlyMap<SlotId, Grip>) => {
  const known = new Map([...grips.values()].map((grip) => [printGrip(grip), grip]));
  return (text: string): Grip | undefined => known.get(text) ?? decodeGrip(text);
});

/** The chord texts of a Board by slot. */
export const chordOfBoard: (board: Board) => ChordOf = remembered((board) => {
  const texts = new Map<SlotId, string>();
  for (const section of board.sections) {
    for (const bar of section.bars) for (const slot of bar.slots) texts.set(slot.id, slot.text);
  }
  return (slot) => texts.get(slot);
});
