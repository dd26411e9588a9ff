/** R25: the voice leaves gaps that nobody fills. */
import { laneIds } from "@halflap/board/board";
import { ticks } from "@halflap/theory/units";
import type { Gap } from "@halflap/timeline/timeline";
import { figuresOf, meeting } from "../figures.ts";
import type { Hit, PassageRule } from "../hit.ts";
import { reaches } from "../thresholds.ts";
import type { CheckedPassage, Tune } from "../tune.ts";
import { counted, sentence } from "../words.ts";

/** A hit for every run of long gaps in which nothing answers and nobody said so. */
export const emptyGap: PassageRule = (passage, tune) => {
  const { gaps } = passage.passage;
  if (gaps.length === 0) return [];
  const figures = laneIds.flatMap((lane) => figuresOf(passage, lane));
  const hasGrip = passage.segments.some(({ grips }) => grips.upper ?? grips.lower);
  if (!hasGrip && figures.length === 0) return [];
  const isEmpty = (gap: Gap) =>
    gap.owner !== "open" && !figures.some((figure) => meeting(figure, gap) !== undefined);
  const runs: Gap[][] = [[]];
  for (const gap of gaps) {
    if (!reaches((gap.end - gap.start) / tune.beat, tune.limits.emptyGap)) continue;
    if (isEmpty(gap)) runs.at(-1)?.push(gap);
    else runs.push([]);
  }
  return runs
    .filter((run) => run.length > 0 && run.length >= tune.limits.emptyGaps)
    .map((run) => hitOf(passage, run, tune));
};

function hitOf(passage: CheckedPassage, run: readonly Gap[], tune: Tune): Hit {
  const owner = laneIds.find((lane) => run.every((gap) => gap.owner === lane));
  const gaps = `${counted(run.length)} gaps in a row`;
  const segments = passage.segments.filter(({ start, slot }) => {
    const own = { start, end: ticks(start + slot.length) };
    return run.some((gap) => meeting(gap, own) !== undefined);
  });
  return {
    rule: "R25",
    severity: "note",
    lanes: owner === undefined ? laneIds : [owner],
    segments,
    span: {
      start: run[0]?.start ?? ticks(0),
      end: run.at(-1)?.end ?? passage.passage.length,
    },
    notes: [],
    measured: run.length,
    threshold: tune.limits.emptyGaps,
    words:
      owner === undefined
        ? `${sentence(gaps)} stay empty: answer the voice, or leave them open on purpose.`
        : `${sentence(gaps)} are ${tune.players[owner]}'s and stay empty.`,
  };
}
