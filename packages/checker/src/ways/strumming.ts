/** Other strum patterns for the bars of a finding, made from what both lanes strum there. */
import type { Bar, Board, LaneId } from "@halflap/board/board";
import { strumId } from "@halflap/board/ids";
import { strumStepsMax, strumsMax } from "@halflap/board/limits";
import { beatOf } from "@halflap/board/meter";
import type { Step, Strum } from "@halflap/board/playing";
import type { LaneEdit } from "@halflap/board/proposal";
import { printSteps } from "@halflap/board/strum-text";
import { type Ticks, ticks } from "@halflap/theory/units";
import type { LaneBar } from "@halflap/timeline/timeline";
import { listed } from "../words.ts";
import {
  barWords,
  type Candidate,
  otherLane,
  type Situation,
  type WayOutMaker,
} from "./candidate.ts";

/** Patterns are made of eighths. */
const step = ticks(24);

/** Fewer holes than these are no rhythm to answer in. */
const holesMin = 2;

/** A pattern not yet given an id. */
type Draft = Omit<Strum, "id">;

/** The grid of a bar: so many steps, so many of them a beat. */
type Grid = { readonly steps: number; readonly perBeat: number };

const rest: Step = { kind: "rest" };

/** Fewer strokes, or strokes where the other lane has none. */
export const patterns: WayOutMaker = (situation) => {
  const [first] = situation.bars;
  if (first === undefined || first.length % step !== 0) return [];
  const now = laneBarIn(situation, first, situation.lane);
  const other = laneBarIn(situation, first, otherLane(situation.lane));
  if (now === undefined || now.strum === undefined) return [];
  const seen = new Set<string>([saying(now.strum)]);
  const thinner = draftsFor(first, now.strum, other, situation.board).filter((draft) => {
    const isNew = !seen.has(saying(draft));
    seen.add(saying(draft));
    return isNew;
  });
  return [
    ...thinner.flatMap((draft) => inBars(situation, draft, "strum")),
    ...feels(now, other).flatMap((draft) => inBars(situation, draft, "feel")),
  ];
};

function laneBarIn({ passages }: Situation, bar: Bar, lane: LaneId): LaneBar | undefined {
  const played = passages.flatMap(({ passage }) => passage.bars);
  const both = played.filter((each) => each.bar.id === bar.id);
  return (both.find(({ lanes }) => !lanes.upper.rests && !lanes.lower.rests) ?? both[0])?.lanes[
    lane
  ];
}

/** Patterns one bar long, from those that leave most to those that leave least. */
function draftsFor(
  bar: Bar,
  now: Strum,
  other: LaneBar | undefined,
  board: Board,
): readonly Draft[] {
  const grid = { steps: bar.length / step, perBeat: beatOf(board.meter) / step };
  if (!Number.isInteger(grid.perBeat) || grid.steps > strumStepsMax) return [];
  const { perBeat } = grid;
  const isBeat = (at: number) => at % perBeat === 0;
  const struck = strokesOf(other);
  const free = (at: number) => !struck.has(ticks(at * step));
  const of = (name: string, isStruck: (at: number) => boolean) =>
    drafted(name, now, grid, isStruck);
  const steps = Array.from({ length: grid.steps }, (_, at) => at);
  const holes = steps.filter(free);
  const beats = steps.filter(isBeat).map((at) => at / perBeat + 1);
  const onBeats = (struckOn: readonly number[]) =>
    of(`on ${listed(struckOn.map(String))}`, (at) => struckOn.includes(at / perBeat + 1));
  return [
    ...(holes.length < holesMin ? [] : [of("where the other part has none", free)]),
    of("off the beat", (at) => at % perBeat === perBeat - 1),
    of("on the beat", isBeat),
    onBeats(beats.filter((beat) => beat % 2 === 0)),
    onBeats(beats.filter((beat) => beat % 2 === 1)),
    of("once a bar", (at) => at === 0),
    ...halved(now),
  ].filter(({ steps }) => steps.some((each) => each.kind === "stroke"));
}

function drafted(
  name: string,
  now: Strum,
  { steps, perBeat }: Grid,
  isStruck: (at: number) => boolean,
): Draft {
  return {
    name,
    step,
    feel: now.feel,
    palmMute: now.palmMute,
    steps: Array.from({ length: steps }, (_, at) =>
      isStruck(at) ? stroke(at % perBeat === 0 ? "down" : "up") : rest,
    ),
  };
}

/** Every second step of the lane's own pattern goes. */
function halved(now: Strum): readonly Draft[] {
  const steps = now.steps.map((each, at) => (at % 2 === 0 ? each : rest));
  return [{ ...now, name: "half the strokes", steps }];
}

/** The lane's own strokes, swung as the other lane swings. */
function feels(now: LaneBar, other: LaneBar | undefined): readonly Draft[] {
  const feel = other?.strum?.feel;
  if (now.strum === undefined || feel === undefined || feel === now.strum.feel) return [];
  const name = feel === "swing" ? "swung too" : "with the other part's feel";
  return [{ ...now.strum, name, feel }];
}

function stroke(way: "down" | "up"): Step {
  return { kind: "stroke", way, weight: "plain", push: false };
}

function strokesOf(bar: LaneBar | undefined): ReadonlySet<Ticks> {
  const strokes = (bar?.attacks ?? []).filter((attack) => attack.kind === "stroke");
  return new Set(strokes.map((attack) => attack.at));
}

/** The pattern set in the bars of the finding: for the section if that is all of them. */
function inBars(situation: Situation, draft: Draft, kind: "strum" | "feel"): readonly Candidate[] {
  const { board, lane, bars } = situation;
  const { strums, strumming } = board.lanes[lane];
  const made = withId(draft, strums);
  if (!strums.has(made.id) && strums.size >= strumsMax) return [];
  const ids = new Set(bars.map((bar) => bar.id));
  const whole = board.sections.filter(
    (section) => section.bars.length > 0 && section.bars.every(({ id }) => ids.has(id)),
  );
  const inWhole = new Set(whole.flatMap((section) => section.bars.map(({ id }) => id)));
  // A pass with a pattern of its own plays that throughout, so it changes with its whole section.
  const entries = board.form.filter(
    (entry) => strumming.passes.has(entry.id) && whole.some(({ id }) => id === entry.section),
  );
  const edits: LaneEdit[] = [
    ...(strums.has(made.id) ? [] : [{ kind: "strum", strum: made } as const]),
    ...whole.map(({ id }) => setAt({ kind: "section", section: id }, made)),
    ...bars.flatMap((bar) => {
      const place = { kind: "bar", bar: bar.id } as const;
      if (!inWhole.has(bar.id)) return [setAt(place, made)];
      return strumming.bars.has(bar.id) ? [setAt(place, undefined)] : [];
    }),
    ...entries.map(({ id }) => setAt({ kind: "pass", entry: id }, made)),
  ];
  const words = `Strum ${draft.name} in ${barWords(bars)}: ${printSteps(draft.steps)}`;
  return [{ kind, lane, edits, words, loss: 0 }];
}

function setAt(
  place: Extract<LaneEdit, { readonly kind: "strum-at" }>["place"],
  strum: Strum | undefined,
): LaneEdit {
  return { kind: "strum-at", place, strum: strum?.id };
}

/** A pattern of the library that says the same, or a new one with an id from what it says. */
function withId(draft: Draft, strums: ReadonlyMap<string, Strum>): Strum {
  const text = [draft.step, draft.feel, draft.palmMute ? "muted" : "open", printSteps(draft.steps)];
  const same = [...strums.values()].find((strum) => saying(strum) === saying(draft));
  if (same !== undefined) return same;
  const base = text.join("-").replace(/\./g, "_").replace(/>/g, "A").replace(/~/g, "P");
  for (let copy = 0; ; copy++) {
    const id = `${copy === 0 ? "" : copy}way-${base}`.slice(0, 64);
    if (!strums.has(id)) return { ...draft, id: strumId(id) };
  }
}

function saying({ step: length, feel, palmMute, steps }: Draft): string {
  return [length, feel, palmMute, printSteps(steps)].join("|");
}
