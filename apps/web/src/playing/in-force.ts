/** Which strum pattern counts in a bar, from where, and in how many bars a pattern is played. */
import type { BarId, Board, FormEntry, Lane, SectionId } from "@halflap/board/board";
import type { StrumId } from "@halflap/board/ids";
import type { Strum } from "@halflap/board/playing";
import type { StrumPlace } from "@halflap/board/proposal";

/** A pattern and the place that it is set for. */
export type InForce = { readonly strum: Strum; readonly from: "bar" | "section" | "lane" };

/** The patterns of a lane and where they are set. */
export type Hands = Pick<Lane, "strums" | "strumming">;

/**
 * The nearest pattern, as far as no single pass has another: the bar's, then the section's, then
 * the lane's. undefined where none is set.
 */
export function strumInForce(lane: Hands, section: SectionId, bar: BarId): InForce | undefined {
  const { bars, sections, lane: whole } = lane.strumming;
  const places = [
    { id: bars.get(bar), from: "bar" },
    { id: sections.get(section), from: "section" },
    { id: whole, from: "lane" },
  ] as const;
  for (const { id, from } of places) {
    const strum = id === undefined ? undefined : lane.strums.get(id);
    if (strum !== undefined) return { strum, from };
  }
  return undefined;
}

/** In how many bars of the chart a pattern is played, in one pass at least. */
export function barsWith(
  board: Pick<Board, "sections" | "form">,
  lane: Hands,
  strum: StrumId,
): number {
  let count = 0;
  for (const section of board.sections) {
    const entries = board.form.filter((entry) => entry.section === section.id);
    const own = entries.map((entry) => lane.strumming.passes.get(entry.id));
    for (const bar of section.bars) {
      const plain = strumInForce(lane, section.id, bar.id)?.strum.id;
      const played = own.length === 0 ? [plain] : own.map((id) => id ?? plain);
      if (played.includes(strum)) count++;
    }
  }
  return count;
}

/** Whether a pattern is set for this place itself. */
export function isSetAt(lane: Hands, place: StrumPlace, strum: StrumId): boolean {
  return setAt(lane, place) === strum;
}

/** The pattern that is set for this place itself; undefined where none is. */
export function setAt({ strumming }: Hands, place: StrumPlace): StrumId | undefined {
  switch (place.kind) {
    case "lane":
      return strumming.lane;
    case "section":
      return strumming.sections.get(place.section);
    case "bar":
      return strumming.bars.get(place.bar);
    case "pass":
      return strumming.passes.get(place.entry);
  }
}

/** Whether a pattern is set nowhere, so that nobody misses it. */
export function isUnused({ strumming }: Hands, strum: StrumId): boolean {
  const { lane, sections, bars, passes } = strumming;
  return ![lane, ...sections.values(), ...bars.values(), ...passes.values()].includes(strum);
}

/** A form entry that plays a section, and which times through the section it is, from 1. */
export type SectionPass = {
  readonly entry: FormEntry;
  readonly first: number;
  readonly last: number;
};

/** The passes of a section in the order played. */
export function passesOf(form: readonly FormEntry[], section: SectionId): readonly SectionPass[] {
  let played = 0;
  return form
    .filter((entry) => entry.section === section)
    .map((entry) => {
      const first = played + 1;
      played += entry.times;
      return { entry, first, last: played };
    });
}
