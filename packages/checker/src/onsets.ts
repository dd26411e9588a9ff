/** When the lanes strike within a bar: what every rule about rhythm measures from. */
import { type LaneId, laneIds } from "@halflap/board/board";
import { remembered } from "@halflap/board/remembered";
import {
  coverageOf,
  overlapOf,
  type Rhythm,
  rhythmOf,
  sharedOnsets,
  together,
} from "@halflap/theory/rhythm";
import { type Ticks, ticks, ticksPerQuarter } from "@halflap/theory/units";
import type {
  Attack,
  FigureSpan,
  LaneBar,
  PlayedBar,
  StrokeAttack,
} from "@halflap/timeline/timeline";

const eighth = ticks(ticksPerQuarter / 2);
const sixteenth = ticks(ticksPerQuarter / 4);

/** A bar in which both lanes strum a pattern, strokes in the fills of either left out. */
export type StrumPair = {
  /** The strokes as heard, swing applied; each lane has one at least. */
  readonly heard: Readonly<Record<LaneId, Rhythm>>;
  /** Of all strokes heard, how many are struck by both: 0 to 1. */
  readonly overlap: number;
  /** The same by the places written, where swung and straight are one. */
  readonly writtenOverlap: number;
  /** Of the strokes of the part with fewer, as written, how many the other strikes too. */
  readonly coveredShare: number;
};

/** What both strum in a bar; undefined where one rests, has no pattern or fills throughout. */
export const strumPairOf: (played: PlayedBar) => StrumPair | undefined = remembered(
  ({ bar, lanes }) => {
    if (laneIds.some((lane) => lanes[lane].strum === undefined)) return undefined;
    const figures = laneIds.flatMap((lane) => lanes[lane].figures);
    const strokes = (lane: LaneId) =>
      soundedStrokes(lanes[lane]).filter(({ at }) => !figures.some((span) => isWithin(span, at)));
    const [upper, lower] = [strokes("upper"), strokes("lower")];
    const heard = {
      upper: rhythmOf(bar.length, upper.map(soundsAt)),
      lower: rhythmOf(bar.length, lower.map(soundsAt)),
    };
    if (upper.length === 0 || lower.length === 0) return undefined;
    const written = {
      upper: rhythmOf(bar.length, upper.map(writtenAt)),
      lower: rhythmOf(bar.length, lower.map(writtenAt)),
    };
    return {
      heard,
      overlap: overlapOf(heard.upper, heard.lower) ?? 0,
      writtenOverlap: overlapOf(written.upper, written.lower) ?? 0,
      coveredShare: coveredShare(written.upper, written.lower),
    };
  },
);

/** The share of a bar's eighths in which some note begins in either lane, fills included. */
export const eighthsFilled: (played: PlayedBar) => number = remembered(({ bar, lanes }) => {
  const written = (lane: LaneId) =>
    rhythmOf(bar.length, lanes[lane].attacks.filter(isSounded).map(writtenAt));
  return coverageOf(together(written("upper"), written("lower")), eighth);
});

/** In how many of its sixteenths a lane strums, as if the bar had sixteen. */
export const sixteenthsStrummed: (laneBar: LaneBar) => number = remembered((laneBar) => {
  const strokes = rhythmOf(laneBar.bar.length, soundedStrokes(laneBar).map(writtenAt));
  return coverageOf(strokes, sixteenth) * 16;
});

/** What each lane strikes, as heard, when the other strikes nothing. */
export const attacksAlone: (played: PlayedBar) => Readonly<Record<LaneId, readonly Attack[]>> =
  remembered(({ lanes }) => {
    const alone = (lane: LaneId, other: LaneId) => {
      const taken = new Set(lanes[other].attacks.filter(isSounded).map(soundsAt));
      return lanes[lane].attacks.filter((attack) => isSounded(attack) && !taken.has(attack.sounds));
    };
    return { upper: alone("upper", "lower"), lower: alone("lower", "upper") };
  });

/** Whether an attack is heard as notes: a ghost stroke is not. */
export function isSounded(attack: Attack): boolean {
  return attack.notes.length > 0;
}

function coveredShare(one: Rhythm, other: Rhythm): number {
  return sharedOnsets(one, other) / Math.min(one.onsets.length, other.onsets.length);
}

function soundedStrokes(laneBar: LaneBar): readonly StrokeAttack[] {
  return laneBar.attacks.filter(
    (attack): attack is StrokeAttack => attack.kind === "stroke" && isSounded(attack),
  );
}

function isWithin(span: FigureSpan, at: Ticks): boolean {
  return at >= span.start && at < span.end;
}

const writtenAt = ({ at }: Attack): Ticks => at;
const soundsAt = ({ sounds }: Attack): Ticks => sounds;
