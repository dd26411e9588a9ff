/** R27: the guitars are busy where the voice sits. */
import { type LaneId, laneIds } from "@halflap/board/board";
import type { MidiNote } from "@halflap/theory/units";
import type { PlayedBar } from "@halflap/timeline/timeline";
import { strokeUnit } from "../beat-words.ts";
import { type Stretch, segmentsUnderAll } from "../figures.ts";
import type { FindingNote } from "../finding.ts";
import type { PassageRule } from "../hit.ts";
import { hitOfReasons, type Reason } from "../reasons.ts";
import { type HeldStrike, heldStrikes, type Strike, strikesOf } from "../struck.ts";
import { totalLength, voicedStretches } from "../sung.ts";
import { exceeds, reaches } from "../thresholds.ts";
import { type CheckedPassage, quartersOf, type Tune } from "../tune.ts";
import { rangeOf, type VoiceRange } from "../voice-ranges.ts";

/** What is said about one lane or both. */
type LaneReason = { readonly lanes: readonly LaneId[]; readonly reason: Reason };

/** A hit where strokes crowd the sung range, and for every lane that plays the melody along. */
export const vocalMasking: PassageRule = (passage, tune) => {
  if (passage.passage.sung.length === 0) return [];
  const doubled = laneIds.flatMap((lane) => melodyDoubled(passage, lane, tune) ?? []);
  const all = [...(crowded(passage, tune) ?? []), ...doubled];
  return [laneIds, ...laneIds.map((lane) => [lane])].flatMap((lanes) => {
    const reasons = all.filter((one) => one.lanes.join() === lanes.join());
    const said = reasons.map(({ reason }) => reason);
    return hitOfReasons(passage, { rule: "R27", lanes }, said);
  });
};

/** A stroke in the sung range while somebody sings. */
type Crowding = {
  readonly lane: LaneId;
  readonly strike: HeldStrike["strike"];
  readonly top: MidiNote;
};

function crowded(passage: CheckedPassage, tune: Tune): readonly LaneReason[] | undefined {
  const { sung } = passage.passage;
  const voice = sung.find((one) => one.voice !== undefined)?.voice;
  const range = voice && rangeOf(voice);
  if (range === undefined) return undefined;
  const voiced = voicedStretches(sung);
  const strokes = laneIds.flatMap((lane) => crowdingOf(passage, { lane, range, voiced }, tune));
  const measured = strokes.length / quartersOf(totalLength(voiced));
  const { maskLook, maskFix } = tune.limits;
  if (!reaches(measured, maskLook)) return undefined;
  const isFix = reaches(measured, maskFix);
  const lanes = laneIds.filter((lane) => strokes.some((stroke) => stroke.lane === lane));
  const [only] = lanes;
  const who =
    lanes.length > 1 || only === undefined ? "both guitars are" : `${tune.players[only]} is`;
  const rate = Math.round(measured * 10) / 10;
  const reason: Reason = {
    severity: isFix ? "fix" : "look",
    segments: segmentsUnderAll(passage, voiced),
    notes: notesOfStrokes(strokes),
    measured,
    threshold: isFix ? maskFix : maskLook,
    words: `${who} busy right where the voice sits, ${rate} strokes a ${strokeUnit(tune)}`,
  };
  return [{ lanes, reason }];
}

/** The strokes of a lane that crowd a voice; pads and palm-muted strokes leave room for it. */
function crowdingOf(
  { passage }: CheckedPassage,
  { lane, range, voiced }: Voicing & { readonly lane: LaneId },
  tune: Tune,
): readonly Crowding[] {
  let index = 0;
  const crowding: Crowding[] = [];
  for (const { strike, start, end } of heldStrikes(passage, lane)) {
    while ((voiced[index]?.end ?? Number.POSITIVE_INFINITY) <= start) index += 1;
    const { top, palmMuted } = strike;
    const isSung = (voiced[index]?.start ?? Number.POSITIVE_INFINITY) <= start;
    if (
      !isSung ||
      top === undefined ||
      palmMuted ||
      reaches(quartersOf(end - start), tune.limits.maskPad)
    )
      continue;
    if (top >= range.low && top <= range.high) crowding.push({ lane, strike, top });
  }
  return crowding;
}

type Voicing = { readonly range: VoiceRange; readonly voiced: readonly Stretch[] };

/** The top notes of strokes, each once for its slot. */
function notesOfStrokes(strokes: readonly Crowding[]): readonly FindingNote[] {
  const notes: FindingNote[] = [];
  let last: Crowding | undefined;
  const known = new Set<string>();
  for (const stroke of strokes) {
    const { lane, strike, top } = stroke;
    const isNew = strike.slot !== last?.strike.slot || top !== last.top || lane !== last.lane;
    last = stroke;
    if (!isNew || known.has(`${lane} ${strike.slot} ${top}`)) continue;
    known.add(`${lane} ${strike.slot} ${top}`);
    notes.push({ lane, slot: strike.slot, pitch: top });
  }
  return notes;
}

type Placed = { readonly strike: Strike; readonly played: PlayedBar };

/** Where the top notes of a lane are the sung ones, note for note, and nobody meant it. */
function melodyDoubled(passage: CheckedPassage, lane: LaneId, tune: Tune): LaneReason | undefined {
  const melodies = passage.passage.sung.filter(({ phrase }) => phrase.melody.length > 0);
  if (melodies.length === 0) return undefined;
  const struck = new Map<number, Placed>();
  for (const { played } of passage.bars) {
    for (const strike of strikesOf(played.lanes[lane])) {
      struck.set(played.start + strike.at, { strike, played });
    }
  }
  const runs = melodies.flatMap(({ phrase, start }) => {
    const runs: Placed[][] = [[]];
    for (const note of phrase.melody) {
      const placed = struck.get(start + note.start);
      const isDoubled =
        placed?.strike.top === note.pitch && placed.played.aims?.includes("unison") !== true;
      if (isDoubled) runs.at(-1)?.push(placed);
      else runs.push([]);
    }
    return runs.filter((run) => isMelody(run, tune));
  });
  if (runs.length === 0) return undefined;
  const doubled = runs.flat();
  const slots = new Set(doubled.map(({ strike }) => strike.slot));
  const notes = doubled.flatMap(({ strike: { slot, top } }) =>
    top === undefined ? [] : [{ lane, slot, pitch: top }],
  );
  const reason: Reason = {
    severity: "fix",
    segments: passage.segments.filter(({ slot }) => slots.has(slot.id)),
    notes,
    measured: Math.max(...runs.map((run) => run.length)),
    threshold: tune.limits.maskMelody,
    unit: "notes",
    words: `${tune.players[lane]} plays the sung melody along, note for note`,
  };
  return { lanes: [lane], reason };
}

/** One note again and again is a chord under the voice, not its melody. */
function isMelody(run: readonly Placed[], tune: Tune): boolean {
  const pitches = new Set(run.map(({ strike }) => strike.top));
  return pitches.size > 1 && !exceeds(tune.limits.maskMelody, run.length);
}
