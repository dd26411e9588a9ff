/**
 * A plain bass: the root of each chord, or the bass note of a slash chord, so that a walk is played
 * where the chart writes one. Common practice, no source.
 */
import { beatOf, meterOfBar } from "@halflap/board/meter";
import { type MidiNote, midiNote, ticks } from "@halflap/theory/units";
import { isSwung, swungTogether } from "@halflap/timeline/swing";
import type { BarInPlay, Round } from "./bars-in-play.ts";
import type { BassNote } from "./play-event.ts";
import { seconds } from "./seconds.ts";

/** E1, the lowest open string of a bass; every note lies in the octave above it. */
const lowest = 28;
const octave = 12;
/** A long chord is struck again after so many beats. */
const beatsHeld = 2;
/** The first of a bar leads. */
const velocityFirst = 0.8;
const velocityOther = 0.68;
/** The share of its time that a note sounds before the next. */
const sounding = 0.94;

/** The bass of a round; none where nobody plays bass. */
export function bassLine(round: Round): readonly BassNote[] {
  if (!round.board.hasBass) return [];
  return round.bars.flatMap((bar) => barNotes(bar, round));
}

function barNotes(
  { played, start }: BarInPlay,
  { board, clock, swing }: Round,
): readonly BassNote[] {
  const { bar, aims } = played;
  const isStop = aims?.includes("stop") === true;
  const meter = meterOfBar(bar.length, board.meter);
  const held = beatOf(meter) * (meter.beats === 3 ? meter.beats : beatsHeld);
  const struck = bar.slots.flatMap((slot) => {
    // In a stop the band hits the first beat and lets it ring.
    if (slot.chord?.kind !== "chord" || (isStop && slot.start > 0)) return [];
    const pitch = bassPitch(slot.chord.bassClass);
    const step = isStop ? bar.length : held;
    const end = isStop ? bar.length : slot.start + slot.length;
    return Array.from({ length: Math.ceil((end - slot.start) / step) }, (_, index) => {
      const at = slot.start + index * step;
      return { at, until: Math.min(at + step, end), pitch };
    });
  });
  const places = struck.flatMap(({ at, until }) => [at, until]);
  const hear = isSwung(board, "board") ? swungTogether(places, bar.length, swing) : ticks;
  return struck.map(({ at, until, pitch }): BassNote => {
    const from = clock(start + hear(at));
    const end = seconds(from + (clock(start + hear(until)) - from) * sounding);
    const velocity = at === 0 ? velocityFirst : velocityOther;
    return { kind: "bass", part: "bass", pitch, start: from, end, velocity };
  });
}

function bassPitch(bassClass: number): MidiNote {
  return midiNote(lowest + ((bassClass - lowest + 3 * octave) % octave));
}
