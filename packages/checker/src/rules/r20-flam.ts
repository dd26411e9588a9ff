/** R20: strokes of both parts land nearly together, but not quite. */
import { type LaneId, laneIds } from "@halflap/board/board";
import { ticks } from "@halflap/theory/units";
import type { Attack, PlayedBar } from "@halflap/timeline/timeline";
import { barRuns } from "../bar-runs.ts";
import type { Hit, PassageRule } from "../hit.ts";
import { attacksAlone } from "../onsets.ts";
import { reaches } from "../thresholds.ts";
import { type CheckedBar, type CheckedPassage, msOf, type Tune } from "../tune.ts";
import { sentence } from "../words.ts";

/** An attack of each lane, heard apart by too little. */
type Flam = Readonly<Record<LaneId, Attack>> & { readonly apart: number };

/** One hit for every run of bars with flams. */
export const flam: PassageRule = (passage, tune) => {
  const isNear = (apart: number) => reaches(tune.limits.flam, msOf(apart, tune));
  const flams = new Map(passage.bars.map((bar) => [bar, flamsIn(bar.played, isNear)] as const));
  const isHit = (bar: CheckedBar) => (flams.get(bar)?.length ? "flam" : undefined);
  return barRuns(passage, isHit).flatMap((run) => {
    const all = run.bars.flatMap((bar) =>
      (flams.get(bar) ?? []).map((found) => ({ ...found, from: bar.played.start })),
    );
    return hitOf(all, run.bars, tune);
  });
};

function hitOf(
  flams: readonly (Flam & { readonly from: number })[],
  bars: CheckedPassage["bars"],
  tune: Tune,
): readonly Hit[] {
  const [first, last] = [flams[0], flams.at(-1)];
  if (first === undefined || last === undefined) return [];
  const apart = msOf(Math.max(...flams.map((found) => found.apart)), tune);
  const soundsAt = ({ upper, lower }: Flam) => [upper.sounds, lower.sounds];
  return [
    {
      rule: "R20",
      severity: "look",
      lanes: laneIds,
      segments: bars.flatMap((bar) => bar.segments),
      span: {
        start: ticks(first.from + Math.min(...soundsAt(first))),
        end: ticks(last.from + Math.max(...soundsAt(last))),
      },
      notes: [],
      measured: apart,
      threshold: tune.limits.flam,
      words: wordsOf(first, Math.round(apart), tune),
    },
  ];
}

function wordsOf({ upper, lower }: Flam, apart: number, { players }: Tune): string {
  if (upper.at !== lower.at) {
    return `Your strokes land ${apart} ms apart here: strike together, or clearly one by one.`;
  }
  const isUpperSwung = upper.sounds !== upper.at;
  const one = isUpperSwung ? players.upper : players.lower;
  const other = isUpperSwung ? players.lower : players.upper;
  return `${sentence(one)} swings these and ${other} plays them straight, ${apart} ms apart.`;
}

function flamsIn(played: PlayedBar, isNear: (apart: number) => boolean): readonly Flam[] {
  const { upper, lower } = attacksAlone(played);
  return upper.flatMap((one) => {
    const near = lower.find((other) => isNear(Math.abs(one.sounds - other.sounds)));
    if (near === undefined) return [];
    return [{ upper: one, lower: near, apart: Math.abs(one.sounds - near.sounds) }];
  });
}
