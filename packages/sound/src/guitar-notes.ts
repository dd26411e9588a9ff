/** Both guitars of a round: the timeline's notes, each stroke spread over its strings. */
import { type Board, laneIds } from "@halflap/board/board";
import type { Ticks } from "@halflap/theory/units";
import { type SoundEvent, soundEvents } from "@halflap/timeline/sound-events";
import type { Timeline } from "@halflap/timeline/timeline";
import type { Round } from "./bars-in-play.ts";
import type { GuitarNote } from "./play-event.ts";
import { type Seconds, seconds } from "./seconds.ts";

/**
 * Seconds from string to string: a soft stroke is slower than a hard one. The first string falls on
 * the beat. Ours; over six strings it stays below the 31 ms from which guitarists hear two players
 * apart (preprint osf jsg94), but for the softest.
 */
const spreadSoft = 0.008;
const spreadHard = 0.003;

/**
 * The arm shares its force among the strings it strikes: three get what is written, more get less
 * each, fewer more, up to a limit. Ours: so a fill is heard beside chords, and a full grip does not
 * drown a small one.
 */
const stringsUsual = 3;
const sharing = 0.35;
const shareMax = 1.2;

/** All strokes and notes of a lane, in the order of time, each stroke in that of its strings. */
export type LaneStrokes = readonly (readonly SoundEvent[])[];

/** Of a stroke at most this share of the time to the next is spread, however fast the tune. */
const spreadShareMax = 0.5;

/** What the lanes strike from one place of the tune to another. */
export function strokesBetween(
  { lanes }: Board,
  timeline: Timeline,
  from: Ticks,
  to: Ticks,
): readonly LaneStrokes[] {
  const setups = { upper: lanes.upper.setup, lower: lanes.lower.setup };
  const starting = soundEvents(timeline, setups).filter(({ start }) => start >= from && start < to);
  return laneIds.map((id) => strokesOf(starting.filter(({ lane }) => lane === id)));
}

/** A lane's notes in a round. */
export function guitarNotes(strokes: LaneStrokes, round: Round): readonly GuitarNote[] {
  const notes: GuitarNote[] = [];
  /** For each string, where its last note stands in `notes`, and when it ends in ticks. */
  const last = new Map<number, { readonly index: number; readonly end: number }>();
  for (const [place, stroke] of strokes.entries()) {
    const share = Math.min(shareMax, (stringsUsual / stroke.length) ** sharing);
    const spread = spreadOf(stroke, strokes[place + 1], round);
    for (const [rank, event] of stroke.entries()) {
      const start = seconds(round.clock(event.start) + rank * spread);
      const before = last.get(event.string);
      const follows = before?.end === event.start;
      const cut = before === undefined ? undefined : notes[before.index];
      // A string sounds on until the hand comes to it.
      if (before && cut && follows) notes[before.index] = { ...cut, end: start };
      last.set(event.string, { index: notes.length, end: event.end });
      const velocity = Math.min(1, event.velocity * share);
      notes.push({ ...noteOf(event, round, start), velocity, follows });
    }
  }
  return notes;
}

/** Events of one time and way are a stroke, from string 6 to 1; an upstroke turns that round. */
function strokesOf(events: readonly SoundEvent[]): LaneStrokes {
  const strokes: SoundEvent[][] = [];
  for (const event of events) {
    const stroke = strokes.at(-1);
    const [first] = stroke ?? [];
    if (stroke && first?.start === event.start && first.stroke === event.stroke) stroke.push(event);
    else strokes.push([event]);
  }
  return strokes.map((stroke) => (stroke[0]?.stroke === "up" ? stroke.reverse() : stroke));
}

/** Seconds from string to string. */
function spreadOf(
  stroke: LaneStrokes[number],
  next: LaneStrokes[number] | undefined,
  { clock }: Round,
): number {
  const [first] = stroke;
  if (first?.stroke === undefined) return 0;
  const wanted = spreadSoft + (spreadHard - spreadSoft) * first.velocity;
  const until = next?.[0]?.start;
  if (until === undefined) return wanted;
  const room = spreadShareMax * (clock(until) - clock(first.start));
  return Math.min(wanted, room / stroke.length);
}

function noteOf(event: SoundEvent, round: Round, start: Seconds): Omit<GuitarNote, "follows"> {
  const { lane, string, pitch, bend, velocity, technique } = event;
  const end = round.clock(round.goesOn ? Math.min(event.end, round.to) : event.end);
  const later = seconds(Math.max(start, end));
  const sound = { string, pitch, bend, velocity, technique };
  return { kind: "guitar", part: lane, ...sound, start, end: later };
}
