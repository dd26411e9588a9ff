/** Which bars changed between two states of a lane, or of the chart. */
import type { Bar, BarId, Lane, Section, SectionId } from "@halflap/board/board";

const told = [
  ...(["grips", "layOuts", "marks", "fills", "dynamics", "palmMutes", "letRings"] as const),
  ...(["strums", "strumming"] as const),
] as const;

/** The part of a lane that is told as news. */
export type LaneContent = Pick<Lane, (typeof told)[number]>;

/** What of a lane is told, read field by field. */
export function contentOf(lane: LaneContent): LaneContent {
  const { grips, layOuts, marks, fills, dynamics, palmMutes, letRings, strums, strumming } = lane;
  return { grips, layOuts, marks, fills, dynamics, palmMutes, letRings, strums, strumming };
}

/** The numbers of the bars in which something that is played is new, other or gone. */
export function changedBars(
  before: LaneContent,
  after: LaneContent,
  sections: readonly Section[],
): readonly number[] {
  if (told.every((part) => before[part] === after[part])) return [];
  const fills = barsOfChangedFills(before, after);
  const differs = ({ id, slots }: Bar, section: SectionId) =>
    fills.has(id) ||
    (["layOuts", "palmMutes", "letRings"] as const).some(
      (part) => before[part].has(id) !== after[part].has(id),
    ) ||
    (["marks", "dynamics"] as const).some((part) => before[part].get(id) !== after[part].get(id)) ||
    strumOf(before, id, section) !== strumOf(after, id, section) ||
    slots.some((slot) => before.grips.get(slot.id) !== after.grips.get(slot.id));
  return sections.flatMap((section) =>
    section.bars.filter((bar) => differs(bar, section.id)).map((bar) => bar.number),
  );
}

/** What stands in each bar, by its id. */
export type ChordTexts = ReadonlyMap<BarId, string>;

/** The chords of a chart as text, each where it starts. */
export function chordTexts(sections: readonly Section[]): ChordTexts {
  const bars = sections.flatMap((section) => section.bars);
  return new Map(
    bars.map(({ id, slots }) => [id, slots.map(({ start, text }) => `${start} ${text}`).join("|")]),
  );
}

/** The numbers of the bars whose chords are new or other. */
export function rewrittenBars(before: ChordTexts, sections: readonly Section[]): readonly number[] {
  const after = chordTexts(sections);
  return sections
    .flatMap((section) => section.bars)
    .filter((bar) => before.get(bar.id) !== after.get(bar.id))
    .map((bar) => bar.number);
}

function barsOfChangedFills(before: LaneContent, after: LaneContent): ReadonlySet<BarId> {
  const ids = [...before.fills.keys(), ...after.fills.keys()];
  const other = ids.filter((id) => before.fills.get(id) !== after.fills.get(id));
  const fills = other.flatMap((id) => [before.fills.get(id), after.fills.get(id)]);
  return new Set(fills.flatMap((fill) => (fill ? [fill.bar] : [])));
}

/** The pattern in force in every pass that has none of its own. */
function strumOf({ strums, strumming }: LaneContent, bar: BarId, section: SectionId) {
  const id = strumming.bars.get(bar) ?? strumming.sections.get(section) ?? strumming.lane;
  return id === undefined ? undefined : strums.get(id);
}
