/** The part of a board that a change near a finding can touch: candidates are tried on it first. */
import type { Bar, BarId, Board, Lane, Section, SectionId } from "@halflap/board/board";
import type { Dynamic } from "@halflap/board/playing";
import type { LaneEdit, StrumPlace } from "@halflap/board/proposal";
import type { Finding, RuleId } from "../finding.ts";

/** Bars kept to each side of the finding's. */
const margin = 2;

/** And where a cure may lie further off: sections are seldom longer than this. */
const wideMargin = 16;

/** Of a finding that goes on longer only so many bars are tried first. */
const barsMax = 32;

/** Rules that measure over all that is sung, or whose cure may lie elsewhere in the section. */
const sectionWide: ReadonlySet<RuleId> = new Set(["R23", "R24", "R26", "R27", "R28", "R33"]);

/**
 * The finding's bars with a few beside them, across the seams of the form too. What rules say
 * there is mostly what they say of the whole board; what is shown is always checked on the whole.
 */
export function windowOf(board: Board, finding: Finding): Board {
  const kept = barsNear(board, finding);
  const sections = board.sections.flatMap((section): Section[] => {
    const bars = section.bars.filter((bar) => kept.has(bar));
    return bars.length === 0 ? [] : [{ ...section, bars }];
  });
  const ids = new Set(sections.map((section) => section.id));
  const partOf = (lane: Lane): Lane => ({
    ...laneWithin(lane, sections),
    dynamics: dynamicsWithin(lane, board.sections, kept),
  });
  return {
    ...board,
    sections,
    form: board.form.filter((entry) => ids.has(entry.section)),
    proposals: [],
    lanes: { upper: partOf(board.lanes.upper), lower: partOf(board.lanes.lower) },
  };
}

/** Whether the finding goes on beyond its window. */
export function isCut(finding: Finding): boolean {
  return finding.bars.length > barsMax;
}

/** What of these changes lies in a part of the board; changes to the whole lane do. */
export function editsWithin(edits: readonly LaneEdit[], part: Board): readonly LaneEdit[] {
  const bars = part.sections.flatMap((section) => section.bars);
  const ids = new Set<string>([
    ...part.sections.map(({ id }) => id),
    ...part.form.map(({ id }) => id),
    ...bars.flatMap((bar) => [bar.id, ...bar.slots.map(({ id }) => id)]),
  ]);
  return edits.filter((edit) => {
    if (edit.kind === "grip") return ids.has(edit.slot);
    if (edit.kind === "strum-at") return isAmong(edit.place, ids);
    return !("bar" in edit) || ids.has(edit.bar);
  });
}

function isAmong(place: StrumPlace, ids: ReadonlySet<string>): boolean {
  if (place.kind === "lane") return true;
  if (place.kind === "section") return ids.has(place.section);
  return ids.has(place.kind === "bar" ? place.bar : place.entry);
}

function barsNear(board: Board, finding: Finding): ReadonlySet<Bar> {
  const meant = new Set(finding.bars.slice(0, barsMax));
  const reach = sectionWide.has(finding.rule) ? wideMargin : margin;
  const kept = new Set<Bar>();
  const atStart = new Set<SectionId>();
  const atEnd = new Set<SectionId>();
  for (const { id, bars } of board.sections) {
    for (const [index, bar] of bars.entries()) {
      if (!meant.has(bar.id)) continue;
      for (const near of bars.slice(Math.max(0, index - reach), index + reach + 1)) kept.add(near);
      if (index === 0) atStart.add(id);
      if (index === bars.length - 1) atEnd.add(id);
    }
  }
  const barsOf = (id: SectionId | undefined) =>
    board.sections.find((section) => section.id === id)?.bars ?? [];
  for (const [index, { section }] of board.form.entries()) {
    const before = atStart.has(section) ? barsOf(board.form[index - 1]?.section) : [];
    const after = atEnd.has(section) ? barsOf(board.form[index + 1]?.section) : [];
    for (const bar of [...before.slice(-margin), ...after.slice(0, margin)]) kept.add(bar);
  }
  return kept;
}

/** What a lane holds in some sections: the less it holds, the sooner a change is tried. */
function laneWithin(lane: Lane, sections: readonly Section[]): Lane {
  const bars = new Set<string>(sections.flatMap((section) => section.bars.map(({ id }) => id)));
  const slots = new Set<string>(
    sections.flatMap((section) => section.bars.flatMap((bar) => bar.slots.map(({ id }) => id))),
  );
  return {
    ...lane,
    grips: within(lane.grips, slots),
    chosenFor: within(lane.chosenFor, slots),
    marks: new Map(),
    layOuts: new Set([...lane.layOuts].filter((id) => bars.has(id))),
    palmMutes: new Set([...lane.palmMutes].filter((id) => bars.has(id))),
    letRings: new Set([...lane.letRings].filter((id) => bars.has(id))),
    fills: new Map([...lane.fills].filter(([, fill]) => bars.has(fill.bar))),
    strumming: { ...lane.strumming, bars: within(lane.strumming.bars, bars) },
  };
}

/** What is written in the kept bars; after bars left out, the loudness that is still in force. */
function dynamicsWithin(
  { dynamics }: Lane,
  sections: readonly Section[],
  kept: ReadonlySet<Bar>,
): Lane["dynamics"] {
  const written = new Map<BarId, Dynamic>();
  for (const { bars } of sections) {
    let now: Dynamic | undefined;
    let isTold = true;
    for (const bar of bars) {
      const own = dynamics.get(bar.id);
      now = own ?? now;
      if (kept.has(bar) && now !== undefined && (own !== undefined || !isTold)) {
        written.set(bar.id, now);
      }
      isTold = kept.has(bar);
    }
  }
  return written;
}

function within<K extends string, V>(
  all: ReadonlyMap<K, V>,
  ids: ReadonlySet<string>,
): ReadonlyMap<K, V> {
  return new Map([...all].filter(([id]) => ids.has(id)));
}
