/** An answer as it is laid on the board to be looked at: the grips that differ. */
import type { Board, SlotId } from "@halflap/board/board";
import type { Answer, LanePart } from "@halflap/fitter/answer";
import { type Grip, sameGrip } from "@halflap/theory/grip";
import type { Preview, TriedLane } from "../board/preview.ts";
import { openGrips, setupOf } from "./part-now.ts";

/** What an answer would change in each of its lanes. */
export function previewOf(
  answer: Pick<Answer, "parts">,
  board: Pick<Board, "sections" | "lanes">,
): Preview {
  return Object.fromEntries(answer.parts.map((part) => [part.lane, triedLane(part, board)]));
}

/** How many slots would hold another grip. */
export function changeCount(preview: Preview): number {
  return (preview.upper?.grips.size ?? 0) + (preview.lower?.grips.size ?? 0);
}

function triedLane(part: LanePart, board: Pick<Board, "sections" | "lanes">): TriedLane {
  const now = board.lanes[part.lane];
  const setup = setupOf(part, board);
  const isMoved = setup.capo !== now.setup.capo;
  const differs = ([slot, grip]: readonly [SlotId, Grip]) => {
    const held = now.grips.get(slot);
    return isMoved || held === undefined || !sameGrip(held, grip);
  };
  return { grips: new Map([...openGrips(part, board)].filter(differs)), setup };
}
