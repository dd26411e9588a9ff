/** R16: the part that lies low in a passage reaches above the high one, or lies above it. */
import type { LaneId } from "@halflap/board/board";
import { remembered } from "@halflap/board/remembered";
import { type Hit, notesOf, type PassageRule } from "../hit.ts";
import { hasAim, isPair, mean, type PairSegment } from "../segments.ts";
import { finalSegment, overlapRuns } from "../shelves.ts";
import { exceeds } from "../thresholds.ts";
import type { CheckedPassage, Tune } from "../tune.ts";
import { counted } from "../words.ts";

/** Which lane lies low in a passage, and which high: by its mean, whatever the lanes are called. */
type Order = { readonly low: LaneId; readonly high: LaneId };

/** How the parts of a bar lie: as usual, crossed in some notes, or changed places. */
type Lie = "clear" | "crossed" | "swapped";

type Run = { readonly lie: Exclude<Lie, "clear">; readonly bars: PairSegment[][] };

/** One hit for every longest run of bars that lie alike; bars that overlap are R01's. */
export const crossedParts: PassageRule = (passage, tune) => {
  const bars = barsToJudge(passage, tune);
  const order = orderOf(passage.segments.filter(isPair));
  if (order === undefined) return [];
  const runs: Run[] = [];
  let last: Lie = "clear";
  for (const pairs of bars) {
    const lie = lieOf(pairs, order, tune);
    const run = runs.at(-1);
    if (lie !== "clear" && lie === last && run !== undefined) run.bars.push(pairs);
    else if (lie !== "clear") runs.push({ lie, bars: [pairs] });
    last = lie;
  }
  return runs.map((run) => hitOf(run, order, tune));
};

/** The slots of each bar in which both play; none where R01 speaks, and not the last chord. */
function barsToJudge(passage: CheckedPassage, tune: Tune): readonly PairSegment[][] {
  const final = finalSegment(passage);
  const overlapping = new Set(
    overlapRuns(passage, tune.limits).flatMap((run) => run.map(({ bar }) => bar)),
  );
  return passage.bars.map((bar) =>
    overlapping.has(bar) ? [] : bar.segments.filter(isPair).filter((pair) => pair !== final),
  );
}

/** Parts whose means are equal have no order. */
function orderOf(pairs: readonly PairSegment[]): Order | undefined {
  const above = meanAbove(pairs, { low: "lower", high: "upper" });
  if (above === 0) return undefined;
  return above > 0 ? { low: "lower", high: "upper" } : { low: "upper", high: "lower" };
}

function lieOf(pairs: readonly PairSegment[], order: Order, { limits }: Tune): Lie {
  if (pairs.some((segment) => hasAim(segment, "weave", "unison"))) return "clear";
  if (!exceeds(crossedShare(pairs, order), limits.crossing)) return "clear";
  return meanAbove(pairs, order) < 0 ? "swapped" : "crossed";
}

function hitOf({ lie, bars }: Run, order: Order, { limits, players }: Tune): Hit {
  const segments = bars.flat();
  const span = bars.length === 1 ? "In this bar" : `For ${counted(bars.length)} bars`;
  const [low, high] = [players[order.low], players[order.high]];
  return {
    rule: "R16",
    severity: lie === "swapped" ? "look" : "note",
    lanes: ["upper", "lower"],
    segments,
    notes: segments.flatMap((segment) => [
      ...notesOf(segment, order.high, (pitch) => pitch < highest(segment[order.low])),
      ...notesOf(segment, order.low, (pitch) => pitch > lowest(segment[order.high])),
    ]),
    measured: crossedShare(segments, order),
    threshold: limits.crossing,
    words:
      lie === "swapped"
        ? `${span} ${low}, otherwise the low part, lies above ${high}.`
        : `${span} the parts cross: ${low} reaches up into ${high}.`,
  };
}

/** The part of the beats in which a note of the low part lies above one of the high part. */
function crossedShare(pairs: readonly PairSegment[], { low, high }: Order): number {
  const crossed = pairs.filter((pair) => highest(pair[low]) > lowest(pair[high]));
  return pairs.length === 0 ? 0 : beatsOf(crossed) / beatsOf(pairs);
}

/** How far the mean of the high part lies above the low one's, in semitones times beats. */
function meanAbove(pairs: readonly PairSegment[], { low, high }: Order): number {
  return pairs.reduce((sum, pair) => {
    const means = meansIn(pair);
    return sum + pair.beats * (means[high] - means[low]);
  }, 0);
}

/** The mean pitch of each lane in a slot. */
const meansIn = remembered(({ upper, lower }: PairSegment) => ({
  upper: mean(upper),
  lower: mean(lower),
}));

function beatsOf(segments: readonly PairSegment[]): number {
  return segments.reduce((sum, { beats }) => sum + beats, 0);
}

function highest(ascending: readonly number[]): number {
  return ascending.at(-1) ?? Number.NEGATIVE_INFINITY;
}

function lowest(ascending: readonly number[]): number {
  return ascending[0] ?? Number.POSITIVE_INFINITY;
}
