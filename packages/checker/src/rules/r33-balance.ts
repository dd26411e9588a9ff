/** R33: one part is too loud beside the other or the voice. */
import { type LaneId, laneIds } from "@halflap/board/board";
import { dynamics } from "@halflap/board/playing";
import { barRuns, forBars } from "../bar-runs.ts";
import { fillsOf, longestByStart, meeting, type Stretch, segmentsUnder } from "../figures.ts";
import type { Hit, PassageRule } from "../hit.ts";
import { isSounded } from "../onsets.ts";
import { voicedStretches } from "../sung.ts";
import { exceeds, reaches } from "../thresholds.ts";
import type { CheckedBar, CheckedPassage, Tune } from "../tune.ts";
import { sentence } from "../words.ts";

/** Judges only what somebody wrote: parts far apart, a fill that is not in front, a loud part. */
export const balance: PassageRule = (passage, tune) => [
  ...farApart(passage, tune),
  ...laneIds.flatMap((lane) => buriedFills(passage, lane, tune)),
  ...laneIds.flatMap((lane) => overVoice(passage, lane, tune)),
];

/** 1 for pp to 6 for ff; undefined where nothing is written or nothing sounds. */
function loudnessIn({ played }: CheckedBar, lane: LaneId): number | undefined {
  const { dynamic, attacks } = played.lanes[lane];
  const isHeard = dynamic !== undefined && attacks.some(isSounded);
  return isHeard ? dynamics.indexOf(dynamic) + 1 : undefined;
}

/** How much louder the upper lane is; undefined unless it is written for both. */
function difference(bar: CheckedBar): number | undefined {
  const [upper, lower] = [loudnessIn(bar, "upper"), loudnessIn(bar, "lower")];
  return upper === undefined || lower === undefined ? undefined : upper - lower;
}

/** The lane that is much louder without a fill or line to bring out. */
function louderLane(bar: CheckedBar, { limits }: Tune): LaneId | undefined {
  const steps = difference(bar) ?? 0;
  const louder = steps > 0 ? "upper" : "lower";
  const isFar = reaches(Math.abs(steps), limits.loudnessStep);
  return isFar && bar.played.lanes[louder].figures.length === 0 ? louder : undefined;
}

function farApart(passage: CheckedPassage, tune: Tune): readonly Hit[] {
  const { players, limits } = tune;
  return barRuns(passage, (bar) => louderLane(bar, tune)).map((run) => {
    const [louder, softer] = [players[run.verdict], players[otherLane(run.verdict)]];
    return {
      rule: "R33",
      severity: "look",
      lanes: laneIds,
      segments: run.segments,
      notes: [],
      measured: Math.max(...run.bars.map((bar) => Math.abs(difference(bar) ?? 0))),
      threshold: limits.loudnessStep,
      words: `${forBars(run)} ${louder} is marked much louder than ${softer}: come down to meet.`,
    };
  });
}

/** Fills over which the other strums on as loud, unless the bar is told of already. */
function buriedFills(passage: CheckedPassage, lane: LaneId, tune: Tune): readonly Hit[] {
  const other = otherLane(lane);
  const answers = fillsOf(passage, other);
  return longestByStart(fillsOf(passage, lane)).flatMap((fill): readonly Hit[] => {
    const bar = passage.bars.filter(({ played }) => played.start <= fill.start).at(-1);
    if (bar === undefined || louderLane(bar, tune) !== undefined) return [];
    const [player, strummer] = [tune.players[lane], tune.players[other]];
    const [own, others] = [loudnessIn(bar, lane), loudnessIn(bar, other)];
    if (own === undefined || others === undefined || others < own) return [];
    if (answers.some((answer) => meeting(fill, answer)) || !isStruck(bar, other, [fill])) return [];
    return [
      {
        rule: "R33",
        severity: "look",
        lanes: laneIds,
        segments: segmentsUnder(passage, fill),
        span: { start: fill.start, end: fill.end },
        notes: [],
        measured: others - own,
        threshold: 0,
        words: `${sentence(player)} fills here, and ${strummer} is as loud: stay under the fill.`,
      },
    ];
  });
}

function overVoice(passage: CheckedPassage, lane: LaneId, tune: Tune): readonly Hit[] {
  const voiced = voicedStretches(passage.passage.sung);
  if (voiced.length === 0) return [];
  const { loudUnderVoice } = tune.limits;
  return barRuns(passage, (bar) =>
    exceeds(loudnessIn(bar, lane) ?? 0, loudUnderVoice) && isStruck(bar, lane, voiced)
      ? "loud"
      : undefined,
  ).map((run) => ({
    rule: "R33",
    severity: "look",
    lanes: [lane],
    segments: run.segments,
    notes: [],
    measured: Math.max(...run.bars.map((bar) => loudnessIn(bar, lane) ?? 0)),
    threshold: loudUnderVoice,
    unit: "1 for pp to 6 for ff",
    words: `${forBars(run)} ${tune.players[lane]} is marked loud under the voice: leave it on top.`,
  }));
}

/** Whether a lane strikes something in the bar within one of the stretches. */
function isStruck({ played }: CheckedBar, lane: LaneId, stretches: readonly Stretch[]): boolean {
  const { start, bar, lanes } = played;
  const here = stretches.filter((each) => each.start < start + bar.length && each.end > start);
  return lanes[lane].attacks.some((attack) => {
    const at = start + attack.at;
    return isSounded(attack) && here.some((each) => at >= each.start && at < each.end);
  });
}

function otherLane(lane: LaneId): LaneId {
  return lane === "upper" ? "lower" : "upper";
}
