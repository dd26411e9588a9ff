/** What one lane plays in one bar: the strokes of its pattern, or its fill where there is one. */
import type { Bar, Board, Lane, Slot } from "@halflap/board/board";
import type { Dynamic, Fill, FillNote, Step, Stroke, Strum } from "@halflap/board/playing";
import { type Grip, type GripNote, gripNotes } from "@halflap/theory/grip";
import { pitchAt, type Setup } from "@halflap/theory/tuning";
import { type Ticks, ticks } from "@halflap/theory/units";
import { type Hearing, isSwung, type Swing, swungTogether } from "./swing.ts";
import type { Attack, FigureSpan, LaneBar } from "./timeline.ts";

/** All that a lane's bar depends on. */
export type LaneBarSource = {
  readonly lane: Lane["id"];
  readonly bar: Bar;
  readonly setup: Setup;
  readonly grips: readonly (Grip | undefined)[];
  /** The slot after the bar and its grip, for a push at its end. */
  readonly nextSlot: Slot | undefined;
  readonly nextGrip: Grip | undefined;
  readonly strum: Strum | undefined;
  /** Fills of the lane that reach into the bar; their start from the start of this bar, signed. */
  readonly fills: readonly PlacedFill[];
  readonly rests: boolean;
  readonly dynamic: Dynamic | undefined;
  readonly palmMute: boolean;
  readonly letRing: boolean;
  readonly feel: Board["feel"];
  readonly meter: Board["meter"];
  /** How far off-beats are late where the bar swings. */
  readonly swing: Swing;
};

/** A fill, and how far from the start of a bar it starts: below 0 when it began before. */
export type PlacedFill = { readonly fill: Fill; readonly from: number };

/** A lane's bar. */
export function laneBarOf(source: LaneBarSource): LaneBar {
  const { lane, bar, rests, grips, strum, dynamic, palmMute, letRing } = source;
  const figures = rests ? [] : figuresOf(source);
  const heard = (step: TimedStep) => !figures.some((span) => isWithin(span, step.at));
  const steps = rests ? [] : stepsOf(source).filter(heard);
  const notes = figures.flatMap((span) => notesIn(source, span));
  const hear = hearingOf(source, [...steps, ...notes]);
  const attacks = [
    ...steps.map((step) => strokeAttack(source, step, hear)),
    ...notes.map((note) => noteAttack(source, note, hear)),
  ].filter((attack) => attack !== undefined);
  if (notes.length > 0) attacks.sort((a, b) => a.at - b.at);
  const changes = bar.slots.map(({ start }) => hear(start));
  const chokes = steps.flatMap(({ step, at }) => (step.kind === "choke" ? [hear(at)] : []));
  const made = { attacks, changes, chokes, figures };
  return { lane, bar, rests, grips, strum, ...made, dynamic, palmMute, letRing };
}

type TimedStep = { readonly at: Ticks; readonly step: Step };

const held: Stroke = { kind: "stroke", way: "down", weight: "plain", push: false };

/** The steps of the pattern that do something; without one, a stroke where each slot starts. */
export function stepsOf({
  bar,
  strum,
}: Pick<LaneBarSource, "bar" | "strum">): readonly TimedStep[] {
  if (strum === undefined || strum.steps.length === 0) {
    return bar.slots.map((slot) => ({ at: slot.start, step: held }));
  }
  const count = Math.ceil(bar.length / strum.step);
  return Array.from(
    { length: count },
    (_, index): TimedStep => ({
      at: ticks(index * strum.step),
      step: strum.steps[index % strum.steps.length] ?? { kind: "rest" },
    }),
  ).filter(({ step }) => step.kind !== "rest");
}

function strokeAttack(
  source: LaneBarSource,
  { at, step }: TimedStep,
  hear: Hearing,
): Attack | undefined {
  if (step.kind !== "stroke") return undefined;
  const index = slotIndexAt(source.bar, at);
  const own = source.bar.slots[index];
  if (own === undefined) return undefined;
  const next = source.bar.slots[index + 1];
  const [slot, grip] =
    step.push && next !== undefined
      ? [next, source.grips[index + 1]]
      : step.push && source.nextSlot !== undefined
        ? [source.nextSlot, source.nextGrip]
        : [own, source.grips[index]];
  if (grip === undefined) return undefined;
  const notes = step.weight === "ghost" ? [] : notesOfGrip(grip, source.setup);
  const sounds = hear(at);
  return { kind: "stroke", at, sounds, slot: slot.id, stroke: step, strum: source.strum, notes };
}

type PlacedNote = { readonly at: Ticks; readonly note: FillNote; readonly fill: Fill };

/** The notes of a figure that begin in the bar. */
function notesIn({ bar, fills }: LaneBarSource, { fill }: FigureSpan): readonly PlacedNote[] {
  const from = fills.find((placed) => placed.fill === fill)?.from ?? 0;
  return fill.notes
    .filter(({ start }) => from + start >= 0 && from + start < bar.length)
    .map((note) => ({ at: ticks(from + note.start), note, fill }));
}

function noteAttack(
  source: LaneBarSource,
  { at, note, fill }: PlacedNote,
  hear: Hearing,
): Attack | undefined {
  const slot = source.bar.slots[slotIndexAt(source.bar, at)];
  if (slot === undefined) return undefined;
  const pitch = pitchAt(source.setup, note.string, note.fret);
  const notes = pitch === undefined ? [] : [{ string: note.string, fret: note.fret, pitch }];
  return { kind: "note", at, sounds: hear(at), slot: slot.id, fill, note, notes };
}

function figuresOf({ bar, fills }: LaneBarSource): readonly FigureSpan[] {
  return fills
    .map(({ fill, from }) => ({
      fill,
      start: ticks(Math.max(0, from)),
      end: ticks(Math.max(0, Math.min(bar.length, from + fill.length))),
    }))
    .filter((span) => span.end > span.start)
    .sort((a, b) => a.start - b.start);
}

function isWithin(span: FigureSpan, at: number): boolean {
  return at >= span.start && at < span.end;
}

/** How the lane's bar is heard, with its slots and all that begins in it. */
function hearingOf(source: LaneBarSource, begun: readonly { readonly at: Ticks }[]): Hearing {
  if (!isSwung(source, source.strum?.feel ?? "board")) return ticks;
  const { bar, swing } = source;
  const places = [...bar.slots.map(({ start }) => start), ...begun.map(({ at }) => at)];
  return swungTogether(places, bar.length, swing);
}

function slotIndexAt(bar: Bar, at: number): number {
  let index = bar.slots.length - 1;
  while (index >= 0 && (bar.slots[index]?.start ?? 0) > at) index -= 1;
  return index;
}

const known = new WeakMap<Setup, WeakMap<Grip, readonly GripNote[]>>();

/** What a grip sounds, remembered: a pattern strikes the same grip many times. */
function notesOfGrip(grip: Grip, setup: Setup): readonly GripNote[] {
  let ofSetup = known.get(setup);
  if (ofSetup === undefined) {
    ofSetup = new WeakMap();
    known.set(setup, ofSetup);
  }
  let notes = ofSetup.get(grip);
  if (notes === undefined) {
    notes = gripNotes(grip, setup);
    ofSetup.set(grip, notes);
  }
  return notes;
}
