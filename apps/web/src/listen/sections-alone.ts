/** Bars that the form leaves out can be heard too: their section is then played on its own. */
import type { BarId, Board, SectionId } from "@halflap/board/board";
import { formEntryId } from "@halflap/board/ids";
import type { Loop, Once } from "./order-of-play.ts";

type Formed = Pick<Board, "sections" | "form">;

/** Whether the form comes to a section. */
export function isInForm({ form }: Pick<Board, "form">, section: SectionId): boolean {
  return form.some((entry) => entry.section === section && entry.times > 0);
}

/** What goes round, as long as its section, or both bars at its ends, stand on the board. */
export function standingLoop(
  { sections }: Pick<Board, "sections">,
  loop: Loop | undefined,
): Loop | undefined {
  if (loop?.kind === "section") {
    return sections.some(({ id }) => id === loop.section) ? loop : undefined;
  }
  const isThere = (bar: BarId) => sections.some(({ bars }) => bars.some(({ id }) => id === bar));
  return loop && isThere(loop.from) && isThere(loop.to) ? loop : undefined;
}

/** The section in which what is wished for begins; undefined for the whole tune. */
export function sectionMeant(
  board: Formed,
  loop: Loop | Once | undefined,
  bar: BarId | undefined,
): SectionId | undefined {
  if (loop?.kind === "section") return loop.section;
  const first = loop?.from ?? bar;
  return board.sections.find(({ bars }) => bars.some(({ id }) => id === first))?.id;
}

/** A board whose form comes to a section: the same, or one that plays nothing but the section. */
export function boardThatReaches<B extends Formed>(board: B, section: SectionId | undefined): B {
  const isThere = board.sections.some(({ id }) => id === section);
  if (section === undefined || !isThere || isInForm(board, section)) return board;
  const alone = { id: formEntryId("alone"), section, times: 1, singers: [] };
  return { ...board, form: [alone] };
}
