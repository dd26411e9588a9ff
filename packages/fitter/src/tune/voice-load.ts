/** How the voice lies over a slot: who sings, in which range, and how often each lane strikes. */
import { type LaneId, laneIds } from "@halflap/board/board";
import { meeting, type Stretch } from "@halflap/checker/figures";
import type { Segment } from "@halflap/checker/segments";
import { heldStrikes } from "@halflap/checker/struck";
import { totalLength, underVoice, voicedStretches } from "@halflap/checker/sung";
import { reaches } from "@halflap/checker/thresholds";
import { type CheckedPassage, quartersOf, type Tune } from "@halflap/checker/tune";
import { rangeOf, type VoiceRange } from "@halflap/checker/voice-ranges";
import { type Ticks, ticks } from "@halflap/theory/units";

/** R27 as if the whole passage were like this slot. */
export type VoiceLoad = {
  readonly range: VoiceRange;
  /**
   * Strokes a sung quarter note of each lane that crowd the voice if the slot's grip lies in its
   * range.
   */
  readonly rates: Readonly<Record<LaneId, number>>;
  /** Notes of figures a sung quarter note that crowd it whatever the grip. */
  readonly fixed: number;
};

export type SungSlot = {
  readonly voice: VoiceLoad | undefined;
  readonly singing: readonly LaneId[];
};

/** The slots of a passage under which somebody sings, those that a push brings there among them. */
export function voiceLoads(
  { passage, segments }: CheckedPassage,
  tune: Tune,
): ReadonlyMap<Segment, SungSlot> {
  const loads = new Map<Segment, SungSlot>();
  if (passage.sung.length === 0) return loads;
  const voice = passage.sung.find((one) => one.voice !== undefined)?.voice;
  const range = voice && rangeOf(voice);
  const crowded = (lane: LaneId) => crowding({ passage, segments, lane, range }, tune);
  const struck = { upper: crowded("upper"), lower: crowded("lower") };
  const quartersUnder = (stretch: Stretch) =>
    quartersOf(totalLength(underVoice(stretch, passage.sung)));
  for (const [index, segment] of segments.entries()) {
    const written = { start: segment.start, end: ticks(segment.start + segment.slot.length) };
    const quarters = quartersUnder(written);
    const [upper, lower] = [struck.upper[index], struck.lower[index]];
    const strokes = (upper?.grip ?? 0) + (lower?.grip ?? 0);
    if (quarters === 0 && strokes === 0) continue;
    const rate = (lane: LaneId) => {
      const { from: start = written.start, grip = 0 } = struck[lane][index] ?? {};
      const heard = quartersUnder({ start, end: struck[lane][index + 1]?.from ?? passage.length });
      return grip === 0 ? 0 : grip / (heard === 0 ? quarters : heard);
    };
    const rates = { upper: rate("upper"), lower: rate("lower") };
    const figures = (upper?.figure ?? 0) + (lower?.figure ?? 0);
    const singing = laneIds.filter((lane) =>
      passage.sung.some((one) => one.voice?.lane === lane && meeting(written, one) !== undefined),
    );
    const fixed = quarters === 0 ? 0 : figures / quarters;
    loads.set(segment, { voice: range && { range, rates, fixed }, singing });
  }
  return loads;
}

/** What crowds the voice of a slot, and where its grip begins: a push may bring it forward. */
type Struck = { from: Ticks; grip: number; figure: number };
type Voicing = Pick<CheckedPassage, "passage" | "segments"> & {
  readonly lane: LaneId;
  readonly range: VoiceRange | undefined;
};

/**
 * Slot by slot, as R27 counts: pads and palm-muted strokes leave room for the voice. A push counts
 * to the slot whose grip it sounds; one that leaves the passage to the slot in which it is struck.
 */
function crowding(
  { passage, segments, lane, range }: Voicing,
  { limits }: Tune,
): readonly Struck[] {
  const counts = segments.map(({ start }): Struck => ({ from: start, grip: 0, figure: 0 }));
  if (range === undefined) return counts;
  const voiced = voicedStretches(passage.sung);
  let index = 0;
  for (const { strike, start, end } of heldStrikes(passage, lane)) {
    const { kind, top, palmMuted, slot } = strike;
    const written = start - strike.sounds + strike.at;
    while ((segments[index + 1]?.start ?? Number.POSITIVE_INFINITY) <= written) index += 1;
    const isSung = voiced.some((stretch) => stretch.start <= start && start < stretch.end);
    if (!isSung || top === undefined || palmMuted) continue;
    if (reaches(quartersOf(end - start), limits.maskPad)) continue;
    const isPush = segments[index + 1]?.slot.id === slot;
    const count = counts[isPush ? index + 1 : index];
    if (count === undefined) continue;
    count.from = ticks(Math.min(count.from, start));
    if (kind === "stroke") count.grip += 1;
    else if (top >= range.low && top <= range.high) count.figure += 1;
  }
  return counts;
}
