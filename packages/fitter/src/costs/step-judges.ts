/** What a step from grip to grip costs a lane, judge by judge. */
import type { LaneId } from "@halflap/board/board";
import type { RuleId } from "@halflap/checker/finding";
import { tooFast } from "@halflap/checker/impossible-move";
import { exceeds } from "@halflap/checker/thresholds";
import { ringing, squeaking } from "../grips/string-noise.ts";
import type { WayTable } from "../grips/way-table.ts";
import type { StepKind } from "../tune/moves-played.ts";
import type { Taste } from "./judge.ts";
import { type CauseName, eighths, findingSteps, stepsFor } from "./weights.ts";

/** The cost of the way at a place of the table, in whole steps each time it is taken. */
export type StepJudge = {
  readonly rule: RuleId | undefined;
  /** "hand": at nothing but how far the hand goes, whether alike, and by R17's measure. */
  readonly looksAt: "hand" | "all";
  readonly cause: CauseName;
  readonly cost: (place: number) => number;
};

const sameGrip = 1;
const slidGrip = 2;
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
  const each = stepsFor(weights.motion, eighths);
  const isHigh = lane === high;
  const ofTop = isHigh ? stepsFor(weights.topMotion, eighths) : each;
  const held = isHigh && kind.isChange ? stepsFor(weights.topHeld, eighths) : 0;
  const cost = (place: number) => {
    const top = table.top[place] ?? 0;
    return ((table.motion[place] ?? 0) - top) * each + top * ofTop + (top === 0 ? held : 0);
  };
  return [{ rule: undefined, looksAt: "all", cause: "motion", cost }];
}

/** The way of the hand, and R29 where there is too little time for it. */
function travel({ table, kind, taste }: Asked): readonly StepJudge[] {
  const { weights, frame } = taste;
  const shifts = table.lengths.map((length) =>
    stepsFor(weights.shift, Math.round(((length ?? 0) / millimetresACentimetre) * eighths)),
  );
  const shift = (place: number) => shifts[table.travels[place] ?? 0] ?? 0;
  const looksAt = "hand";
  const shifting: StepJudge = { rule: undefined, looksAt, cause: "hand shift", cost: shift };
  if (kind.silenced.has("R29")) return [shifting];
  const verdicts = table.lengths.map(
    (length) => length && tooFast(length, { all: kind.time, held: 0 }, frame)?.severity,
  );
  const fast = verdicts.map((severity) => (severity ? findingSteps(weights, severity) : 0));
  const slid = verdicts.map((severity) =>
    severity === "stop" ? findingSteps(weights, severity) : 0,
  );
  const late = (place: number) => {
    const isSlid = table.likeness[place] === slidGrip;
    return (isSlid ? slid : fast)[table.travels[place] ?? 0] ?? 0;
  };
  return [shifting, { rule: "R29", looksAt, cause: "move with no time", cost: late }];
}

/** R17 as if a nearer grip always lay at hand. */
function jumps({ table, kind, taste }: Asked): readonly StepJudge[] {
  if (!kind.isWithin || kind.silenced.has("R17") || kind.chord === undefined) return [];
  const look = findingSteps(taste.weights, "look");
  const cost = (place: number) => (table.jumps[place] ?? 0) * look;
  return [{ rule: "R17", looksAt: "hand", cause: "hand shift", cost }];
}

/** Changes of grip in one breath, and R28's wide shift. */
function singing({ table, kind, taste }: Asked): readonly StepJudge[] {
  if (!kind.isSung) return [];
  const { weights, frame } = taste;
  const change = stepsFor(weights.sungChange, eighths);
  const look = kind.silenced.has("R28") ? 0 : findingSteps(weights, "look");
  const shifts = table.lengths.map((length) =>
    length !== undefined && exceeds(length, frame.limits.singShift) ? look : 0,
  );
  const cost = (place: number) => {
    if (table.likeness[place] === sameGrip) return 0;
    return change + (shifts[table.travels[place] ?? 0] ?? 0);
  };
  return [{ rule: "R28", looksAt: "hand", cause: "under the voice", cost }];
}

/** R31 and R32: what the strings do by themselves. */
function noises({ table, kind, taste }: Asked): readonly StepJudge[] {
  const judges: StepJudge[] = [];
  if (kind.isQuiet && !kind.silenced.has("R31")) {
    const note = findingSteps(taste.weights, "note");
    const squeaks = squeaking(table, taste.frame.limits.squeak);
    const cost = (place: number) => (squeaks(place) ? note : 0);
    judges.push({ rule: "R31", looksAt: "all", cause: "hand shift", cost });
  }
  if (kind.rings !== "cut" && kind.chord !== undefined && !kind.silenced.has("R32")) {
    const says = findingSteps(taste.weights, kind.rings === "meant" ? "fix" : "look");
    const rings = ringing(table, kind.chord);
    const cost = (place: number) => (rings?.(place) ? says : 0);
    if (rings !== undefined) judges.push({ rule: "R32", looksAt: "all", cause: "rub", cost });
  }
  return judges;
}
