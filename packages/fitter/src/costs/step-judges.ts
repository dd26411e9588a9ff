/** What a step from grip to grip costs a lane, judge by judge. */
import type { LaneId } from "@halflap/board/board";
import type { RuleId } from "@halflap/checker/finding";
import { tooFast } from "@halflap/checker/impossible-move";
import { exceeds } from "@halflap/checker/thresholds";
import { ringing, squeaking } from "../grips/string-noise.ts";
import { likenesses, type WayTable } from "../grips/way-table.ts";
import type { StepKind } from "../tune/moves-played.ts";
import type { Taste } from "./judge.ts";
import { type CauseName, eighths, findingSteps, stepsFor } from "./weights.ts";

/** In whole steps, each time the way is taken. */
export type StepJudge = {
  readonly rule: RuleId | undefined;
  readonly cause: CauseName;
} & (
  | {
      /** At nothing but the pitches: a way of the voices. */
      readonly looksAt: "voices";
      readonly cost: (way: number) => number;
    }
  | {
      /** At nothing but how far the hand goes, and how alike the grips are: as `handWay`. */
      readonly looksAt: "hand";
      readonly cost: (way: number) => number;
    }
  | {
      /** By the number of the grip left; undefined where it costs nothing whatever follows. */
      readonly looksAt: "strings";
      readonly cost: (row: number) => ((column: number) => number) | undefined;
    }
);

/** A way of the hand by its length and the likeness of the grips, as one number. */
export function handWay(travel: number, likeness: number): number {
  return travel * likenessCount + likeness;
}

const likenessCount = Object.keys(likenesses).length;

const millimetresACentimetre = 10;

/** All who judge a kind of step of a lane. */
export function stepJudges(
  table: WayTable,
  kind: StepKind,
  lane: LaneId,
  taste: Taste,
): readonly StepJudge[] {
  const asked = { table, kind, lane, taste };
  return [motion(asked), travel(asked), jumps(asked), singing(asked), noises(asked)].flat();
}

type Asked = {
  readonly table: WayTable;
  readonly kind: StepKind;
  readonly lane: LaneId;
  readonly taste: Taste;
};

function motion({ table, kind, lane, taste }: Asked): readonly StepJudge[] {
  const { weights, high } = taste;
  const { voices } = table;
  const each = stepsFor(weights.motion, eighths);
  const isHigh = lane === high;
  const ofTop = isHigh ? stepsFor(weights.topMotion, eighths) : each;
  const held = isHigh && kind.isChange ? stepsFor(weights.topHeld, eighths) : 0;
  const cost = (way: number) => {
    const top = voices.top[way] ?? 0;
    return ((voices.motion[way] ?? 0) - top) * each + top * ofTop + (top === 0 ? held : 0);
  };
  return [{ rule: undefined, looksAt: "voices", cause: "motion", cost }];
}

/** The way of the hand, and R29 where there is too little time for it. */
function travel({ table, kind, taste }: Asked): readonly StepJudge[] {
  const { weights, frame } = taste;
  const { lengths } = table.hands;
  const shifts = lengths.map((length) =>
    stepsFor(weights.shift, Math.round(((length ?? 0) / millimetresACentimetre) * eighths)),
  );
  const shift = (way: number) => shifts[travelIn(way)] ?? 0;
  const looksAt = "hand";
  const shifting: StepJudge = { rule: undefined, looksAt, cause: "hand shift", cost: shift };
  if (kind.silenced.has("R29")) return [shifting];
  const verdicts = lengths.map(
    (length) => length && tooFast(length, { all: kind.time, held: 0 }, frame)?.severity,
  );
  const fast = verdicts.map((severity) => (severity ? findingSteps(weights, severity) : 0));
  const slid = verdicts.map((severity) =>
    severity === "stop" ? findingSteps(weights, severity) : 0,
  );
  const late = (way: number) => {
    const isSlid = likenessIn(way) === likenesses.slid;
    return (isSlid ? slid : fast)[travelIn(way)] ?? 0;
  };
  return [shifting, { rule: "R29", looksAt, cause: "move with no time", cost: late }];
}

/** R17 as if a nearer grip always lay at hand. */
function jumps({ table, kind, taste }: Asked): readonly StepJudge[] {
  if (!kind.isWithin || kind.silenced.has("R17") || kind.chord === undefined) return [];
  const look = findingSteps(taste.weights, "look");
  const cost = (way: number) => (table.voices.jumps[way] ?? 0) * look;
  return [{ rule: "R17", looksAt: "voices", cause: "hand shift", cost }];
}

/** Changes of grip in one breath, and R28's wide shift. */
function singing({ table, kind, taste }: Asked): readonly StepJudge[] {
  if (!kind.isSung) return [];
  const { weights, frame } = taste;
  const change = stepsFor(weights.sungChange, eighths);
  const look = kind.silenced.has("R28") ? 0 : findingSteps(weights, "look");
  const shifts = table.hands.lengths.map((length) =>
    length !== undefined && exceeds(length, frame.limits.singShift) ? look : 0,
  );
  const cost = (way: number) => {
    if (likenessIn(way) === likenesses.same) return 0;
    return change + (shifts[travelIn(way)] ?? 0);
  };
  return [{ rule: "R28", looksAt: "hand", cause: "under the voice", cost }];
}

/** R31 and R32: what the strings do by themselves. */
function noises({ table, kind, taste }: Asked): readonly StepJudge[] {
  const judges: StepJudge[] = [];
  const looksAt = "strings";
  if (kind.isQuiet && !kind.silenced.has("R31")) {
    const note = findingSteps(taste.weights, "note");
    const squeaks = squeaking(table, taste.frame.limits.squeak);
    const cost = (row: number) => (column: number) => (squeaks(row, column) ? note : 0);
    judges.push({ rule: "R31", looksAt, cause: "hand shift", cost });
  }
  if (kind.rings !== "cut" && kind.chord !== undefined && !kind.silenced.has("R32")) {
    const says = findingSteps(taste.weights, kind.rings === "meant" ? "fix" : "look");
    const rings = ringing(table, kind.chord);
    const cost = (row: number) => {
      const ringsOn = rings(row);
      return ringsOn && ((column: number) => (ringsOn(column) ? says : 0));
    };
    judges.push({ rule: "R32", looksAt, cause: "rub", cost });
  }
  return judges;
}

function travelIn(way: number): number {
  return Math.floor(way / likenessCount);
}

function likenessIn(way: number): number {
  return way % likenessCount;
}
