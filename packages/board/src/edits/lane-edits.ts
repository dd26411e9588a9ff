/** Changes to a lane at once: a proposal taken, a way out of a finding, an edit of one's own. */
import type * as Y from "yjs";
import { type ChordOf, changeLane } from "../change-lane.ts";
import { editOwn } from "../documents.ts";
import { laneLayout } from "../layout.ts";
import type { LaneEdit } from "../proposal.ts";

/**
 * Makes all changes in one transaction, which undo takes back as one. `chordOf` says what stands in
 * a slot, to be kept with the grip chosen for it.
 */
export function applyLaneEdits(
  doc: Y.Doc,
  edits: readonly LaneEdit[],
  chordOf: ChordOf = () => undefined,
): void {
  const lane = laneLayout(doc);
  editOwn(doc, () => {
    for (const edit of edits) changeLane(lane, edit, chordOf);
  });
}
