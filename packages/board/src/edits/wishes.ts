/** What the owner of a lane asks of a part that is fitted, as edits on the lane's document. */
import { decodeGrip } from "@halflap/theory/grip";
import { assert } from "@halflap/theory/units";
import type * as Y from "yjs";
import { editOwn } from "../documents.ts";
import { laneLayout } from "../layout.ts";
import { type LaneWishes, wishNames } from "../wishes.ts";
import { wishesCopyOf, wishesShape, writeWishes } from "../wishes-copy.ts";
import { readWishes } from "../wishes-state.ts";

/**
 * Changes some wishes in one transaction and leaves the others; a wish that is the usual one is
 * taken back. Bounds that would lie the wrong way round are a bug of the caller.
 */
export function setWishes(doc: Y.Doc, change: Partial<LaneWishes>): void {
  const lane = laneLayout(doc);
  const standing = readWishes(lane, [], decodeGrip);
  const [before, after] = [wishesCopyOf(standing), wishesCopyOf({ ...standing, ...change })];
  assert(wishesShape(after, "").ok, "wishes that can be stored");
  const changed = wishNames.filter(
    (name) => JSON.stringify(before[name]) !== JSON.stringify(after[name]),
  );
  editOwn(doc, () => writeWishes(lane, changed, after));
}
