/** R28: a player has much to do while singing. */
import { type LaneId, laneIds } from "@halflap/board/board";
import { barLengthOf } from "@halflap/board/meter";
import { sameGrip } from "@halflap/theory/grip";
import { ticks } from "@halflap/theory/units";
import type { Sung } from "@halflap/timeline/timeline";
import { strokeUnit } from "../beat-words.ts";
import { meeting, type Stretch, segmentsUnderAll } from "../figures.ts";
import { travelBetween } from "../hand-travel.ts";
import type { PassageRule } from "../hit.ts";
import { hitOfReasons, type Reason } from "../reasons.ts";
import { type HeldStrike, heldStrikes } from "../struck.ts";
import { totalLength, voicedStretches } from "../sung.ts";
import { exceeds, reaches } from "../thresholds.ts";
import { type CheckedPassage, quartersOf, type Tune } from "../tune.ts";

/** A stretch in which the player of a lane sings, and what the lane strikes in it. */
type SungStretch = Stretch & { readonly strikes: readonly HeldStrike[] };

/** All that a measure looks at. */
type Singing = {
  readonly passage: CheckedPassage;
  readonly tune: Tune;
  readonly player: string;
  readonly lane: LaneId;
  readonly sung: readonly Sung[];
  readonly stretches: readonly SungStretch[];
};

/** One hit for each player who sings and has much to do with the hands meanwhile. */
export const busySinging: PassageRule = (passage, tune) =>
  laneIds.flatMap((lane) => {
    const sung = passage.passage.sung.filter(({ voice }) => voice?.lane === lane);
    if (sung.length === 0) return [];
    const stretches = stretchesOf(passage, lane, sung);
    const singing = { passage, tune, player: tune.players[lane], lane, sung, stretches };
    const reasons = [manyStrokes, manyChanges, wideShift, onlyOffBeats].flatMap(
      (measure) => measure(singing) ?? [],
    );
    return hitOfReasons(passage, { rule: "R28", lanes: [lane] }, reasons);
  });

function stretchesOf(
  { passage }: CheckedPassage,
  lane: LaneId,
  sung: readonly Sung[],
): readonly SungStretch[] {
  const strikes = heldStrikes(passage, lane);
  let index = 0;
  return voicedStretches(sung).map((voiced) => {
    while ((strikes[index]?.start ?? Number.POSITIVE_INFINITY) < voiced.start) index += 1;
    const first = index;
    while ((strikes[index]?.start ?? Number.POSITIVE_INFINITY) < voiced.end) index += 1;
    return { ...voiced, strikes: strikes.slice(first, index) };
  });
}

/** Strokes a quarter note, phrase by phrase; the busiest decides. */
function manyStrokes({ passage, tune, player, stretches }: Singing): Reason | undefined {
  const { singLook, singFix } = tune.limits;
  const rate = ({ start, end, strikes }: SungStretch) => strikes.length / quartersOf(end - start);
  const busy = stretches.filter((stretch) => reaches(rate(stretch), singLook));
  if (busy.length === 0) return undefined;
  const measured = Math.max(...busy.map(rate));
  const isFix = reaches(measured, singFix);
  return {
    severity: isFix ? "fix" : "look",
    segments: segmentsUnderAll(passage, busy),
    notes: [],
    measured,
    threshold: isFix ? singFix : singLook,
    words: `${player} plays ${shortly(measured)} strokes a ${strokeUnit(tune)} while singing`,
  };
}

/** Two strokes in a row under one phrase with different grips. */
type Change = { readonly from: HeldStrike; readonly to: HeldStrike };

function changesIn({ strikes }: SungStretch): readonly Change[] {
  const gripped = strikes.filter(({ strike }) => strike.grip !== undefined);
  return gripped.slice(1).flatMap((to, index) => {
    const from = gripped[index];
    const [before, after] = [from?.strike.grip, to.strike.grip];
    if (from === undefined || before === undefined || after === undefined) return [];
    return sameGrip(before, after) ? [] : [{ from, to }];
  });
}

/** Grip changes a bar, over all bars of the passage in which the player sings. */
function manyChanges({ passage, tune, player, stretches }: Singing): Reason | undefined {
  const sungBars = passage.passage.bars
    .map(({ start, bar }) => ({ start, end: ticks(start + bar.length) }))
    .filter((bar) => stretches.some((stretch) => meeting(stretch, bar) !== undefined));
  const bars = totalLength(sungBars) / barLengthOf(tune.meter);
  const changes = stretches.flatMap(changesIn);
  const measured = changes.length / bars;
  if (!exceeds(measured, tune.limits.singChanges)) return undefined;
  return {
    severity: "look",
    segments: segmentsOf(passage, changes),
    notes: [],
    measured,
    threshold: tune.limits.singChanges,
    unit: "grip changes a bar",
    words: `${player} changes grips ${shortly(measured)} times a bar while singing`,
  };
}

/** The widest way of the hand along the neck between two strokes of one phrase. */
function wideShift({ passage, tune, player, lane, stretches }: Singing): Reason | undefined {
  const setup = tune.setups[lane];
  const wayOf = ({ from, to }: Change) => {
    const [before, after] = [from.strike.grip, to.strike.grip];
    if (before === undefined || after === undefined) return 0;
    return travelBetween(before, after, setup, tune.limits) ?? 0;
  };
  const wide = stretches
    .flatMap(changesIn)
    .filter((change) => exceeds(wayOf(change), tune.limits.singShift));
  if (wide.length === 0) return undefined;
  const measured = Math.max(...wide.map(wayOf));
  return {
    severity: "look",
    segments: segmentsOf(passage, wide),
    notes: [],
    measured,
    threshold: tune.limits.singShift,
    unit: "mm",
    words: `${player}'s hand jumps ${Math.round(measured)} mm in the middle of a sung phrase`,
  };
}

/** Phrases in which every stroke falls beside the beat, while the voice is on it. */
function onlyOffBeats({ passage, tune, player, sung, stretches }: Singing): Reason | undefined {
  const isOff = ({ strike }: HeldStrike) => strike.at % tune.beat !== 0;
  const off = stretches.filter(
    ({ strikes, start, end }) =>
      strikes.length >= tune.limits.singOffBeats &&
      strikes.every(isOff) &&
      sung.some((one) => one.start < end && one.end > start && isOnBeat(passage, one, tune)),
  );
  if (off.length === 0) return undefined;
  return {
    severity: "note",
    segments: segmentsUnderAll(passage, off),
    notes: [],
    measured: Math.max(...off.map(({ strikes }) => strikes.length)),
    threshold: tune.limits.singOffBeats,
    unit: "strokes",
    words: `all of ${player}'s strokes fall off the beat under a sung phrase`,
  };
}

/** Whether some note of a phrase begins on a beat; taken for granted while none is written. */
function isOnBeat(passage: CheckedPassage, { phrase, start }: Sung, tune: Tune): boolean {
  const bars = passage.passage.bars;
  const isOn = (place: number) => {
    const bar = bars.find((one) => one.start <= place && place < one.start + one.bar.length);
    return bar !== undefined && (place - bar.start) % tune.beat === 0;
  };
  return phrase.melody.length === 0 || phrase.melody.some((note) => isOn(start + note.start));
}

function segmentsOf(passage: CheckedPassage, changes: readonly Change[]) {
  const slots = new Set(changes.flatMap(({ from, to }) => [from.strike.slot, to.strike.slot]));
  return passage.segments.filter(({ slot }) => slots.has(slot.id));
}

function shortly(value: number): string {
  return String(Math.round(value * 10) / 10);
}
