/**
 * A fitted part against the board as it is now, which may be another than the one it was fitted
 * for: what is looked at and what is taken are both read from here.
 */
import type { Board, SlotId } from "@halflap/board/board";
import type { LaneEdit } from "@halflap/board/proposal";
import type { LanePart } from "@halflap/fitter/answer";
import { capoEdits } from "@halflap/fitter/capo-change";
import { type Grip, printGrip, sameGrip } from "@halflap/theory/grip";
import type { Setup } from "@halflap/theory/tuning";
import { fret } from "@halflap/theory/units";

/** The guitar on which the part is held. */
export function setupOf({ lane, capo }: LanePart, board: Pick<Board, "lanes">): Setup {
  const { setup } = board.lanes[lane];
  return capo === undefined ? setup : { ...setup, capo: fret(capo) };
}

/** Its grips, but for slots that are gone or have been locked since. */
export function openGrips(
  { lane, grips }: LanePart,
  { sections, lanes }: Pick<Board, "sections" | "lanes">,
): ReadonlyMap<SlotId, Grip> {
  const { locked } = lanes[lane].wishes;
  const slots = sections.flatMap(({ bars }) => bars).flatMap((bar) => bar.slots);
  const there = new Set(slots.map(({ id }) => id));
  return new Map([...grips].filter(([slot]) => there.has(slot) && !locked.has(slot)));
}

/** What makes the lane so: the capo first, then the grips that are others than now. */
export function editsOf(part: LanePart, board: Board): readonly LaneEdit[] {
  const { lane } = part;
  const [grips, held] = [openGrips(part, board), board.lanes[lane].grips];
  const changed = [...grips].flatMap(([slot, grip]): LaneEdit[] => {
    const now = held.get(slot);
    return now && sameGrip(now, grip) ? [] : [{ kind: "grip", slot, grip: printGrip(grip) }];
  });
  return [...capoEdits(board, lane, setupOf(part, board), new Set(grips.keys())), ...changed];
}
