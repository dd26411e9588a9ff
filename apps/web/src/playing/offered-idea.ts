/** Whether an idea for a section waits for the lane's owner already. */
import type { LaneId, SectionId } from "@halflap/board/board";
import type { Strum } from "@halflap/board/playing";
import type { Proposal } from "@halflap/board/proposal";
import { printSteps } from "@halflap/board/strum-text";

/** The same strokes, offered for this lane and this section; under whichever name. */
export function isOffered(
  proposals: readonly Pick<Proposal, "lane" | "edits">[],
  lane: LaneId,
  section: SectionId | undefined,
  idea: Pick<Strum, "step" | "steps">,
): boolean {
  const offers = proposals.filter((each) => each.lane === lane);
  return offers.some(({ edits }) => {
    const set = edits.flatMap((edit) => {
      if (edit.kind !== "strum-at" || edit.place.kind !== "section") return [];
      return edit.place.section === section ? [edit.strum] : [];
    });
    return edits.some(
      (edit) => edit.kind === "strum" && set.includes(edit.strum.id) && isSame(edit.strum, idea),
    );
  });
}

function isSame(one: Pick<Strum, "step" | "steps">, other: typeof one): boolean {
  return one.step === other.step && printSteps(one.steps) === printSteps(other.steps);
}
