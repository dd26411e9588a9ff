/** How the voice lies over a slot: who sings, in which range, and how often each lane strikes. */
import { type LaneId, laneIds, type SlotId } from "@halflap/board/board";
import type { Segment } from "@halflap/checker/segments";
import { heldStrikes } from "@halflap/checker/struck";
import { voicedStretches } from "@halflap/checker/sung";
import { reaches } from "@halflap/checker/thresholds";
import type { CheckedPassage, Tune } from "@halflap/checker/tune";
import { rangeOf, type VoiceRange } from "@halflap/checker/voice-ranges";

/** R27 as if the whole passage were like this slot. */
export type VoiceLoad = {
  readonly range: VoiceRange;
  /** Strokes a sung beat of each lane that crowd the voice if their top lies in its range. */
  readonly rates: Readonly<Record<LaneId, number>>;
  /** Notes of figures a sung beat that crowd it whatever the grip. */
  readonly fixed: number;
};

export type SungSlot = {
  readonly voice: VoiceLoad | undefined;
  readonly singing: readonly LaneId[];
};

/** The slots of a passage under which somebody sings. */
export function voiceLoads(
  { passage, segments }: CheckedPassage,
  tune: Tune,
): ReadonlyMap<Segment, SungSlot> {
  const loads = new Map<Segment, SungSlot>();
  if (passage.sung.length === 0) return loads;
  const voiced = voicedStretches(passage.sung);
  const voice = passage.sung.find((one) => one.voice !== undefined)?.voice;
  const range = voice && rangeOf(voice);
  const struck = laneIds.map((lane) => crowding({ passage, lane, voiced, range }, tune));
  for (const segment of segments) {
    const start = segment.start;
    const end = start + segment.slot.length;
    const under = (stretch: { readonly start: number; readonly end: number }) =>
      Math.max(0, Math.min(end, stretch.end) - Math.max(start, stretch.start));
    const beats = voiced.reduce((sum, stretch) => sum + under(stretch), 0) / tune.beat;
    if (beats === 0) continue;
    const [upper, lower] = struck.map((bySlot) => bySlot.get(segment.slot.id));
    const singing = laneIds.filter((lane) =>
      passage.sung.some((one) => one.voice?.lane === lane && under(one) > 0),
    );
    const rates = { upper: (upper?.grip ?? 0) / beats, lower: (lower?.grip ?? 0) / beats };
    const fixed = ((upper?.figure ?? 0) + (lower?.figure ?? 0)) / beats;
    loads.set(segment, { voice: range && { range, rates, fixed }, singing });
  }
  return loads;
}

type Struck = { grip: number; figure: number };
type Voicing = {
  readonly passage: CheckedPassage["passage"];
  readonly lane: LaneId;
  readonly voiced: ReturnType<typeof voicedStretches>;
  readonly range: VoiceRange | undefined;
};

/** As R27 counts: pads and palm-muted strokes leave room for the voice. */
function crowding(
  { passage, lane, voiced, range }: Voicing,
  { limits, beat }: Tune,
): ReadonlyMap<SlotId, Struck> {
  const counts = new Map<SlotId, Struck>();
  if (range === undefined) return counts;
  for (const { strike, start, end } of heldStrikes(passage, lane)) {
    const { top, palmMuted, slot, grip } = strike;
    const isSung = voiced.some((stretch) => stretch.start <= start && start < stretch.end);
    if (!isSung || top === undefined || palmMuted) continue;
    if (reaches(end - start, limits.maskPad * beat)) continue;
    const count = counts.get(slot) ?? { grip: 0, figure: 0 };
    if (grip !== undefined) count.grip++;
    else if (top >= range.low && top <= range.high) count.figure++;
    counts.set(slot, count);
  }
  return counts;
}
