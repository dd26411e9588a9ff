/** What sounds in each slot: the pitches of both lanes, and how much of one shelf they share. */
import type { Bar, Board, Lane, LaneId, Section, Slot } from "@halflap/board/board";
import { gripPitches } from "@halflap/theory/grip";
import { type MidiNote, type Semitones, semitones, ticksPerQuarter } from "@halflap/theory/units";

/** One slot as it sounds. Chord and grips are constant in it. */
export type Segment = {
  readonly slot: Slot;
  readonly bar: Bar;
  readonly section: Section;
  /** The weight of the slot: its length in beats of the meter. */
  readonly beats: number;
  /**
   * Sounding pitches in ascending order, capo included, a pitch on two strings twice; undefined =
   * silent.
   */
  readonly upper: readonly MidiNote[] | undefined;
  readonly lower: readonly MidiNote[] | undefined;
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

/** Every slot of the board in chart order, each section once. */
export function segmentsOf(board: Board): readonly Segment[] {
  const ticksPerBeat = (ticksPerQuarter * 4) / board.meter.unit;
  return board.sections.flatMap((section) =>
    section.bars.flatMap((bar) =>
      bar.slots.map((slot) => {
        const upper = sounding(board.lanes.upper, bar, slot);
        const lower = sounding(board.lanes.lower, bar, slot);
        const both = upper !== undefined && lower !== undefined;
        return {
          slot,
          bar,
          section,
          beats: slot.length / ticksPerBeat,
          upper,
          lower,
          share: both ? overlapShare(lower, upper) : undefined,
          meanGap: both ? semitones(Math.abs(mean(upper) - mean(lower))) : undefined,
        };
      }),
    ),
  );
}

/** Whether both lanes sound in the slot. */
export function isPair(segment: Segment): segment is PairSegment {
  return segment.upper !== undefined && segment.lower !== undefined;
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

function mean(pitches: readonly MidiNote[]): number {
  return pitches.reduce((sum, pitch) => sum + pitch, 0) / pitches.length;
}

function sounding(lane: Lane, bar: Bar, slot: Slot): readonly MidiNote[] | undefined {
  const grip = lane.layOuts.has(bar.id) ? undefined : lane.grips.get(slot.id);
  if (grip === undefined) return undefined;
  const pitches = gripPitches(grip, lane.setup);
  return pitches.length > 0 ? pitches : undefined;
}
