/** Which sections a section can borrow its chords from. */
import type { Section, SectionId } from "@halflap/board/board";

/**
 * Every other section, but for those that play this one's chords themselves, at first hand or
 * not.
 */
export function lendersOf(sections: readonly Section[], borrower: SectionId): readonly Section[] {
  return sections.filter((section) => !playsChordsOf(sections, section, borrower));
}

/** The page shows no circle of borrowing, so this comes to an end. */
function playsChordsOf(sections: readonly Section[], section: Section, source: SectionId): boolean {
  if (section.id === source) return true;
  const from = sections.find((each) => each.id === section.borrows);
  return from !== undefined && playsChordsOf(sections, from, source);
}
