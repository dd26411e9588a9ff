/** What sounds in each slot: the pitches of both lanes, and how much of one shelf they share. */
import type { Bar, BarAim, Board, LaneId, SectionId, Slot } from "@halflap/board/board";
import { type Grip, gripPitches } from "@halflap/theory/grip";
import type { Setup } from "@halflap/theory/tuning";
import {
  type MidiNote,
  type Semitones,
  semitones,
  type Ticks,
  ticks,
  ticksPerQuarter,
} from "@halflap/theory/units";
import type { LaneBar, PlayedBar } from "@halflap/timeline/timeline";

/** One slot as it sounds. Chord and grips are constant in it. */
export type Segment = {
  readonly slot: Slot;
  readonly bar: Bar;
  readonly section: SectionId;
  /** From the start of the passage. */
  readonly start: Ticks;
  /** The weight of the slot: its length in beats of the meter. */
  readonly beats: number;
  readonly aims: readonly BarAim[];
  /**
   * Sounding pitches in ascending order, capo included, a pitch on two strings twice; undefined =
   * silent.
   */
  readonly upper: readonly MidiNote[] | undefined;
  readonly lower: readonly MidiNote[] | undefined;
  /** The grips themselves, also where they are not heard. */
  readonly grips: Readonly<Record<LaneId, Grip | undefined>>;
  /** Pitches of the fills and lines whose notes begin here, each once; empty without any. */
  readonly figures: Readonly<Record<LaneId, readonly MidiNote[]>>;
  /** Whether a lane lays out here. */
  readonly rests: Readonly<Record<LaneId, boolean>>;
  /**
   * How much of the narrower part's span lies within the other's, 0..1; undefined unless both
   * play. R01.
   */
  readonly share: number | undefined;
  /** Distance between the mean pitches, 0 or more; undefined unless both play. R01. */
  readonly meanGap: Semitones | undefined;
};

/** A slot in which both lanes sound. */
export type PairSegment = Segment & Readonly<Record<LaneId, readonly MidiNote[]>>;

/** What a segment needs to know beyond its bar. */
export type SegmentFrame = {
  readonly section: SectionId;
  readonly meter: Board["meter"];
  readonly setups: Readonly<Record<LaneId, Setup>>;
};

/**
 * The slots of a bar as they sound. A grip sounds when a stroke strikes it, from a push in the bar
 * `before` too, or when a fill is played out of it.
 */
export function segmentsOf(
  played: PlayedBar,
  before: PlayedBar | undefined,
  frame: SegmentFrame,
): readonly Segment[] {
  const ticksPerBeat = (ticksPerQuarter * 4) / frame.meter.unit;
  const { bar, start, aims, lanes } = played;
  return bar.slots.map((slot, index): Segment => {
    const sounding = (lane: LaneId) =>
      soundingPitches(lanes[lane], before?.lanes[lane], index, frame.setups[lane]);
    const [upper, lower] = [sounding("upper"), sounding("lower")];
    const both = upper !== undefined && lower !== undefined;
    return {
      slot,
      bar,
      section: frame.section,
      start: ticks(start + slot.start),
      beats: slot.length / ticksPerBeat,
      aims: aims ?? [],
      upper,
      lower,
      grips: { upper: lanes.upper.grips[index], lower: lanes.lower.grips[index] },
      figures: {
        upper: figurePitches(lanes.upper, slot),
        lower: figurePitches(lanes.lower, slot),
      },
      rests: { upper: lanes.upper.rests, lower: lanes.lower.rests },
      share: both ? overlapShare(lower, upper) : undefined,
      meanGap: both ? semitones(Math.abs(mean(upper) - mean(lower))) : undefined,
    };
  });
}

/** Whether both lanes sound in the slot. */
export function isPair(segment: Segment): segment is PairSegment {
  return segment.upper !== undefined && segment.lower !== undefined;
}

/** Whether the band means the slot's bar to be so. */
export function hasAim(segment: Pick<Segment, "aims">, ...aims: readonly BarAim[]): boolean {
  return aims.some((aim) => segment.aims.includes(aim));
}

/** The mean of pitches, as a MIDI number. */
export function mean(pitches: readonly MidiNote[]): number {
  return pitches.reduce((sum, pitch) => sum + pitch, 0) / pitches.length;
}

/**
 * The part of the narrower span that lies within the other's, 0..1; a single note counts one
 * semitone wide.
 */
function overlapShare(a: readonly MidiNote[], b: readonly MidiNote[]): number {
  const [lowestA, highestA] = ends(a);
  const [lowestB, highestB] = ends(b);
  const shared = Math.min(highestA, highestB) - Math.max(lowestA, lowestB);
  const narrower = Math.min(highestA - lowestA, highestB - lowestB);
  return Math.max(0, shared) / Math.max(1, narrower);
}

function ends(ascending: readonly MidiNote[]): readonly [number, number] {
  return [ascending[0] ?? 0, ascending.at(-1) ?? 0];
}

function soundingPitches(
  laneBar: LaneBar,
  before: LaneBar | undefined,
  index: number,
  setup: Setup,
): readonly MidiNote[] | undefined {
  const grip = laneBar.grips[index];
  const slot = laneBar.bar.slots[index];
  if (laneBar.rests || grip === undefined || slot === undefined) return undefined;
  const strikes = (bar: LaneBar) =>
    bar.attacks.some(
      (attack) => attack.kind === "stroke" && attack.slot === slot.id && attack.notes.length > 0,
    );
  const fills = laneBar.figures.some(
    (span) =>
      span.fill.kind === "fill" && span.start < slot.start + slot.length && span.end > slot.start,
  );
  const isHeard =
    fills || strikes(laneBar) || (index === 0 && before !== undefined && strikes(before));
  const pitches = isHeard ? pitchesOf(grip, setup) : [];
  return pitches.length > 0 ? pitches : undefined;
}

function figurePitches({ attacks, figures }: LaneBar, slot: Slot): readonly MidiNote[] {
  if (figures.length === 0) return [];
  const here = attacks.filter((attack) => attack.kind === "note" && attack.slot === slot.id);
  return [...new Set(here.flatMap(({ notes }) => notes.map(({ pitch }) => pitch)))];
}

const known = new WeakMap<Setup, WeakMap<Grip, readonly MidiNote[]>>();

/** The pitches of a grip, remembered: grips come back all over a tune. */
function pitchesOf(grip: Grip, setup: Setup): readonly MidiNote[] {
  let ofSetup = known.get(setup);
  if (ofSetup === undefined) {
    ofSetup = new WeakMap();
    known.set(setup, ofSetup);
  }
  let pitches = ofSetup.get(grip);
  if (pitches === undefined) {
    pitches = gripPitches(grip, setup);
    ofSetup.set(grip, pitches);
  }
  return pitches;
}
