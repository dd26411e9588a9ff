/** Boards on which a pattern for one section is tried: small ones, and no document is touched. */
import type { Board, LaneId, SectionId } from "@halflap/board/board";
import { strumId } from "@halflap/board/ids";
import type { Strum } from "@halflap/board/playing";

/** Where a pattern is tried. */
export type Place = { readonly lane: LaneId; readonly section: SectionId };

/** The lane on the other side of the seam. */
export function otherLane(lane: LaneId): LaneId {
  return lane === "upper" ? "lower" : "upper";
}

/**
 * The board with this section alone and what stands before and after it in the form, since a move
 * into it is told in the bar before: every rule about rhythm says of the section, and of both its
 * seams, what it says on the whole board.
 */
export function aroundSection(board: Board, section: SectionId): Board {
  const form = board.form.filter((_, index) =>
    board.form.slice(Math.max(0, index - 1), index + 2).some((entry) => entry.section === section),
  );
  const kept = new Set([section, ...form.map((entry) => entry.section)]);
  return { ...board, form, sections: board.sections.filter(({ id }) => kept.has(id)) };
}

/** The board with a pattern set for the section; bars and passes with one of their own keep it. */
export function withPattern(
  board: Board,
  { lane, section }: Place,
  pattern: Omit<Strum, "id">,
): Board {
  const before = board.lanes[lane];
  const id = freeId(before.strums);
  const strums = new Map([...before.strums, [id, { ...pattern, id }]]);
  const sections = new Map([...before.strumming.sections, [section, id]]);
  const strumming = { ...before.strumming, sections };
  return { ...board, lanes: { ...board.lanes, [lane]: { ...before, strums, strumming } } };
}

/** The id that `withPattern` gives a pattern in a library. */
export function freeId(strums: ReadonlyMap<string, Strum>): Strum["id"] {
  for (let count = 0; ; count += 1) {
    const id = strumId(`idea${count}`);
    if (!strums.has(id)) return id;
  }
}
