/** The fills and lines of a lane over the bars of a passage, each from where it begins. */
import type { LaneId } from "@halflap/board/board";
import type { Fill } from "@halflap/board/playing";
import { type Ticks, ticks } from "@halflap/theory/units";
import type { FigureAttack, PlayedBar } from "@halflap/timeline/timeline";
import type { FindingNote } from "./finding.ts";
import type { Segment } from "./segments.ts";
import type { CheckedPassage } from "./tune.ts";

/** A stretch of a passage, in ticks from its start. */
export type Stretch = { readonly start: Ticks; readonly end: Ticks };

/** A fill or line as it is played in a passage. */
export type Figure = Stretch & { readonly lane: LaneId; readonly fill: Fill };

/** A note of a figure, with its place as heard from the start of the passage. */
export type FigureNote = { readonly sounds: number; readonly attack: FigureAttack };

/** The figures of a lane by start. One that a bar of rest cuts comes in pieces. */
export function figuresOf(passage: CheckedPassage, lane: LaneId): readonly Figure[] {
  const figures: Figure[] = [];
  for (const { played } of passage.bars) {
    for (const span of played.lanes[lane].figures) {
      const start = ticks(played.start + span.start);
      const end = ticks(played.start + span.end);
      const before = figures.findIndex(({ fill, end }) => fill === span.fill && end === start);
      const known = figures[before];
      if (known === undefined) figures.push({ lane, fill: span.fill, start, end });
      else figures[before] = { ...known, end };
    }
  }
  return figures;
}

/** The figures that answer in a gap; lines belong to the tune. */
export function fillsOf(passage: CheckedPassage, lane: LaneId): readonly Figure[] {
  return figuresOf(passage, lane).filter(({ fill }) => fill.kind === "fill");
}

/** The notes of a figure, in the order in which they are struck. */
export function notesOfFigure(passage: CheckedPassage, figure: Figure): readonly FigureNote[] {
  return barsUnder(passage, figure).flatMap((played) =>
    played.lanes[figure.lane].attacks.flatMap((attack): readonly FigureNote[] =>
      attack.kind === "note" && attack.fill === figure.fill
        ? [{ sounds: played.start + attack.sounds, attack }]
        : [],
    ),
  );
}

/** The notes of a figure that are struck within a stretch, as a finding lists them. */
export function namedNotes(
  passage: CheckedPassage,
  figure: Figure,
  within: Stretch = figure,
): readonly FindingNote[] {
  return notesOfFigure(passage, figure)
    .filter(({ sounds }) => sounds >= within.start && sounds < within.end)
    .flatMap(({ attack }) =>
      attack.notes.map(({ pitch }) => ({ lane: figure.lane, slot: attack.slot, pitch })),
    );
}

/** The slots that a stretch touches. */
export function segmentsUnder(passage: CheckedPassage, stretch: Stretch): readonly Segment[] {
  return passage.segments.filter(
    ({ start, slot }) => start < stretch.end && start + slot.length > stretch.start,
  );
}

/** The slots that some of these stretches touch; they come by start and do not overlap. */
export function segmentsUnderAll(
  { segments }: CheckedPassage,
  stretches: readonly Stretch[],
): readonly Segment[] {
  let index = 0;
  return segments.filter(({ start, slot }) => {
    while ((stretches[index]?.end ?? Number.POSITIVE_INFINITY) <= start) index += 1;
    return (stretches[index]?.start ?? Number.POSITIVE_INFINITY) < start + slot.length;
  });
}

/** What two stretches have in common; undefined where they do not meet. */
export function meeting(a: Stretch, b: Stretch): Stretch | undefined {
  const [start, end] = [Math.max(a.start, b.start), Math.min(a.end, b.end)];
  return end > start ? { start: ticks(start), end: ticks(end) } : undefined;
}

/** Stretches by start, those that overlap or touch joined. */
export function joined(byStart: readonly Stretch[]): readonly Stretch[] {
  const apart: Stretch[] = [];
  for (const { start, end } of byStart) {
    const last = apart.at(-1);
    if (last === undefined || start > last.end) apart.push({ start, end });
    else apart[apart.length - 1] = { start: last.start, end: ticks(Math.max(last.end, end)) };
  }
  return apart;
}

/** The longest of those that start in one place, by start. */
export function longestByStart<T extends Stretch>(stretches: readonly T[]): readonly T[] {
  const longest = new Map<Ticks, T>();
  for (const stretch of stretches) {
    const known = longest.get(stretch.start);
    if (known === undefined || known.end < stretch.end) longest.set(stretch.start, stretch);
  }
  return [...longest.values()].sort((a, b) => a.start - b.start);
}

function barsUnder({ passage }: CheckedPassage, stretch: Stretch): readonly PlayedBar[] {
  return passage.bars.filter(
    ({ start, bar }) => start < stretch.end && start + bar.length > stretch.start,
  );
}
