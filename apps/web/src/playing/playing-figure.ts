/** What a lane plays in a bar beyond its grips, ready to be drawn over the bar's time. */
import type { Bar, BarId, Lane, Meter, Section } from "@halflap/board/board";
import { beatOf } from "@halflap/board/meter";
import type { Fill, FillNote, Step, Strum } from "@halflap/board/playing";
import { type Ticks, ticks } from "@halflap/theory/units";
import { strumInForce } from "./in-force.ts";

/** A share of the time that is drawn: 0 = its start, 1 = its end. */
type Share = number;

/** A step of the pattern that is not a rest. */
export type StepFigure = {
  readonly at: Share;
  readonly start: Ticks;
  readonly step: Exclude<Step, { readonly kind: "rest" }>;
  /** How long a step lasts: as far as a push is tied over. */
  readonly width: Share;
};

export type NoteFigure = {
  readonly at: Share;
  readonly start: number;
  readonly note: FillNote;
  /** Until the next note on its string, or the end of what is drawn of the fill. */
  readonly room: Share;
  /** Where the note stands that a hammer-on, pull-off or slide goes on from. */
  readonly from: { readonly at: Share; readonly fret: number } | undefined;
};

/** A fill or line as far as it lies in the bar. */
export type FillFigure = {
  readonly fill: Fill;
  readonly start: Ticks;
  readonly end: Ticks;
  readonly from: Share;
  readonly to: Share;
  readonly notes: readonly NoteFigure[];
};

export type PlayingFigure = {
  readonly rests: boolean;
  /** Whether the pattern as a whole is muted with the palm. */
  readonly palmMute: boolean;
  readonly steps: readonly StepFigure[];
  readonly fills: readonly FillFigure[];
  /** Where the beats stand. */
  readonly beats: readonly Share[];
};

/** The bars up to and with a bar, each with how long before it that bar starts. */
type Reach = ReadonlyMap<BarId, number>;

/** What is drawn of a lane in a bar of its section; while a fill lasts, nothing is strummed. */
export function playingFigure(
  lane: Pick<Lane, "strums" | "strumming" | "fills" | "layOuts">,
  section: Pick<Section, "id" | "bars">,
  bar: Bar,
  meter: Meter,
): PlayingFigure {
  const rests = lane.layOuts.has(bar.id);
  const fills = rests ? [] : fillsIn(lane.fills, section.bars, bar);
  const strum = rests ? undefined : strumInForce(lane, section.id, bar.id)?.strum;
  const isFree = ({ start }: StepFigure) =>
    !fills.some((fill) => start >= fill.start && start < fill.end);
  const beat = beatOf(meter);
  const beats = Array.from({ length: Math.ceil(bar.length / beat) }, (_, i) => i * beat);
  return {
    rests,
    palmMute: strum?.palmMute ?? false,
    steps: strum === undefined ? [] : stepFigures(strum, bar.length).filter(isFree),
    fills,
    beats: beats.map((at) => at / bar.length),
  };
}

/** The steps of a pattern that are not rests, as often as it goes into a length. */
export function stepFigures(
  { steps, step }: Pick<Strum, "steps" | "step">,
  length: Ticks,
): readonly StepFigure[] {
  if (steps.length === 0) return [];
  const count = Math.ceil(length / step);
  return Array.from({ length: count }, (_, index) => index).flatMap((index) => {
    const each = steps[index % steps.length];
    if (each === undefined || each.kind === "rest") return [];
    const start = ticks(index * step);
    return [{ at: start / length, start, step: each, width: step / length }];
  });
}

/** A whole fill, as if it were a bar of its own. */
export function fillFigure(fill: Fill): FillFigure {
  return figureFrom(fill, 0, fill.length);
}

/** The fills of a lane that start in a bar or reach into it, by start. */
export function fillsReaching(
  fills: Lane["fills"],
  section: Pick<Section, "bars">,
  bar: Bar,
): readonly FillFigure[] {
  return fillsIn(fills, section.bars, bar);
}

function fillsIn(fills: Lane["fills"], bars: readonly Bar[], bar: Bar): readonly FillFigure[] {
  if (fills.size === 0) return [];
  const reach = reachOf(bars, bar);
  const found: FillFigure[] = [];
  for (const fill of fills.values()) {
    const before = reach.get(fill.bar);
    if (before === undefined) continue;
    const from = fill.start - before;
    if (from < bar.length && from + fill.length > 0) found.push(figureFrom(fill, from, bar.length));
  }
  return found.sort((a, b) => a.start - b.start);
}

function figureFrom(fill: Fill, from: number, length: number): FillFigure {
  const start = ticks(Math.max(0, from));
  const end = ticks(Math.min(length, from + fill.length));
  const share = (at: number) => at / length;
  const notes = fill.notes.flatMap((note, index): readonly NoteFigure[] => {
    const at = from + note.start;
    if (at < 0 || at >= length) return [];
    const before = fill.notes
      .slice(0, index)
      .filter(({ string }) => string === note.string)
      .at(-1);
    const next = fill.notes.find((each) => each.string === note.string && each.start > note.start);
    const isLinked = note.way !== "pluck" && note.way !== "bend" && before !== undefined;
    return [
      {
        at: share(at),
        start: at,
        note,
        room: share(Math.min(end, from + (next?.start ?? fill.length)) - at),
        from: isLinked
          ? { at: Math.max(0, share(from + before.start)), fret: before.fret }
          : undefined,
      },
    ];
  });
  return { fill, start, end, from: share(start), to: share(end), notes };
}

/** A bar of another ending is not on the way to this one. */
function reachOf(bars: readonly Bar[], bar: Bar): Reach {
  const reach = new Map<BarId, number>([[bar.id, 0]]);
  const index = bars.indexOf(bar);
  let before = 0;
  for (let i = index - 1; i >= 0; i--) {
    const each = bars[i];
    if (each === undefined || !meet(each, bar)) continue;
    before += each.length;
    reach.set(each.id, before);
  }
  return reach;
}

/** Whether two bars are played in the same round. */
function meet(a: Bar, b: Bar): boolean {
  return a.rounds === undefined || b.rounds === undefined
    ? true
    : a.rounds.some((round) => b.rounds?.includes(round));
}
