/** Both guitars of a round: the timeline's notes, each stroke spread over its strings. */
import { laneIds } from "@halflap/board/board";
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

/** The guitars' notes that start in a round. */
export function guitarNotes(round: Round, timeline: Timeline): readonly GuitarNote[] {
  const { board, from, to } = round;
  const setups = { upper: board.lanes.upper.setup, lower: board.lanes.lower.setup };
  const starting = soundEvents(timeline, setups).filter(({ start }) => start >= from && start < to);
  return laneIds.flatMap((lane) =>
    laneNotes(
      starting.filter((e) => e.lane === lane),
      round,
    ),
  );
}

/** By start, then from string 6 to 1: so they come in strokes, whose order an upstroke turns. */
function laneNotes(events: readonly SoundEvent[], round: Round): readonly GuitarNote[] {
  const notes: GuitarNote[] = [];
  /** For each string, where its last note stands in `notes`, and when it ends in ticks. */
  const last = new Map<number, { readonly index: number; readonly end: number }>();
  for (const stroke of strokesOf(events)) {
    const share = Math.min(shareMax, (stringsUsual / stroke.length) ** sharing);
    for (const [rank, event] of stroke.entries()) {
      const start = seconds(round.clock(event.start) + rank * spreadOf(event));
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

function strokesOf(events: readonly SoundEvent[]): readonly (readonly SoundEvent[])[] {
  const strokes: SoundEvent[][] = [];
  for (const event of events) {
    const stroke = strokes.at(-1);
    const [first] = stroke ?? [];
    if (stroke && first?.start === event.start && first.stroke === event.stroke) stroke.push(event);
    else strokes.push([event]);
  }
  return strokes.map((stroke) => (stroke[0]?.stroke === "up" ? stroke.reverse() : stroke));
}

function spreadOf({ stroke, velocity }: SoundEvent): number {
  return stroke === undefined ? 0 : spreadSoft + (spreadHard - spreadSoft) * velocity;
}

function noteOf(event: SoundEvent, round: Round, start: Seconds): Omit<GuitarNote, "follows"> {
  const { lane, string, pitch, bend, velocity, technique } = event;
  const end = round.clock(round.goesOn ? Math.min(event.end, round.to) : event.end);
  const later = seconds(Math.max(start, end));
  const sound = { string, pitch, bend, velocity, technique };
  return { kind: "guitar", part: lane, ...sound, start, end: later };
}
