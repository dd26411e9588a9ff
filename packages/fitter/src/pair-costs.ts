/** What every pair of grips in a slot costs, and for what: the same judges fill tables and tell. */
import { type LaneId, laneIds } from "@halflap/board/board";
import type { RuleId } from "@halflap/checker/finding";
import type { Frame } from "@halflap/checker/tune";
import { gripJudges } from "./grip-costs.ts";
import { type GripSound, type LaneSounds, laneSounds } from "./grip-sound.ts";
import type { HeldGrips } from "./held-grip.ts";
import { benchFor, type LoneJudge, type PairJudge } from "./judge.ts";
import { doublingJudges } from "./pair-doubling.ts";
import { loneLowJudges, lowJudges } from "./pair-low.ts";
import { registerJudges } from "./pair-register.ts";
import { loneToneJudges, toneJudges } from "./pair-tones.ts";
import { loneVoiceJudges, voiceJudges } from "./pair-voice.ts";
import { makeShelf } from "./shelf.ts";
import type { SlotKind, TimedKind } from "./slot-kinds.ts";
import type { CauseName, Weights } from "./weights.ts";

/** What decides about all slots of a tune. */
export type Taste = {
  readonly frame: Frame;
  readonly weights: Weights;
  /** The lane that lies high. */
  readonly high: LaneId;
};

/** The grips of each lane in a slot; undefined = it holds none. */
export type Lists = Readonly<Record<LaneId, HeldGrips | undefined>>;

/** A cost and what it is for; in steps. */
export type CausedSteps = { readonly cause: CauseName; readonly steps: number };

/** All who judge a kind of slot, those that are silenced apart. */
export type Judges = {
  readonly pair: readonly PairJudge[];
  readonly lanes: Readonly<Record<LaneId, readonly LoneJudge[]>>;
};

/** The judges of a kind of slot. */
export function judgesFor(kind: SlotKind, { frame, weights, high }: Taste): Judges {
  const bench = benchFor(kind, frame, weights, high);
  const heard = <T extends PairJudge | LoneJudge>(judges: readonly T[]) =>
    judges.filter(({ rule }) => rule === undefined || !kind.silenced.has(rule));
  const alone = (lane: LaneId) => [
    ...gripJudges(bench, lane),
    ...loneToneJudges(bench),
    ...loneLowJudges(bench),
    ...loneVoiceJudges(bench, lane),
  ];
  const { sounding } = kind;
  if (sounding !== "both") {
    const lanes = { upper: [], lower: [], [sounding]: heard(alone(sounding)) };
    return { pair: [], lanes };
  }
  const groups = [doublingJudges, toneJudges, lowJudges, registerJudges, voiceJudges];
  const lanes = {
    upper: heard(gripJudges(bench, "upper")),
    lower: heard(gripJudges(bench, "lower")),
  };
  return { pair: heard(groups.flatMap((group) => group(bench))), lanes };
}

/**
 * What each pair of grips costs in a slot through the whole form, row by row of the upper lane's;
 * not capped.
 */
export function pairTable(kinds: readonly TimedKind[], lists: Lists, taste: Taste): Float64Array {
  const rows = lists.upper?.grips.length ?? 1;
  const columns = lists.lower?.grips.length ?? 1;
  const table = new Float64Array(rows * columns);
  for (const timed of kinds) {
    const once = kindTable(timed, lists, taste);
    for (let place = 0; place < table.length; place++) {
      table[place] = (table[place] ?? 0) + (once[place] ?? 0) * timed.times;
    }
  }
  return table;
}

/** What one pair of grips costs in a slot, cause by cause; lists of one grip each. */
export function pairCauses(
  kinds: readonly TimedKind[],
  lists: Lists,
  taste: Taste,
): readonly CausedSteps[] {
  return kinds.flatMap((timed) => verdicts(timed, lists, taste));
}

/** The same by rule; what no rule says is left out. */
export function costsByRule(
  kinds: readonly TimedKind[],
  lists: Lists,
  taste: Taste,
): ReadonlyMap<RuleId, number> {
  const costs = new Map<RuleId, number>();
  for (const { rule, steps } of kinds.flatMap((timed) => verdicts(timed, lists, taste))) {
    if (rule !== undefined) costs.set(rule, (costs.get(rule) ?? 0) + steps);
  }
  return costs;
}

type Verdict = CausedSteps & { readonly rule: RuleId | undefined };

function verdicts({ kind, times }: TimedKind, lists: Lists, taste: Taste): readonly Verdict[] {
  const judges = judgesFor(kind, taste);
  const sounds = soundsIn(kind, lists, taste);
  const [upper, lower] = [sounds.upper?.sounds[0], sounds.lower?.sounds[0]];
  const alone = laneIds.flatMap((lane) => {
    const sound = sounds[lane]?.sounds[0];
    if (sound === undefined) return [];
    return judges.lanes[lane].map(({ rule, cause, cost }) => {
      return { rule, cause, steps: cost(sound) * times };
    });
  });
  if (upper === undefined || lower === undefined) return alone;
  const together = judges.pair.map(({ rule, cause, cost }) => {
    return { rule, cause, steps: cost(upper, lower) * times };
  });
  return [...alone, ...together];
}

const tables = makeShelf<Float64Array>(96);

/** Played once; remembered, as chords come back and most of a board stays as it is. */
function kindTable({ kind, key }: TimedKind, lists: Lists, taste: Taste): Float64Array {
  const sounds = soundsIn(kind, lists, taste);
  const { weights, high } = taste;
  const values = Object.values(weights).join();
  const name = [sounds.upper?.id, sounds.lower?.id, high, values, key].join(" ");
  return tables(name, () => filled(judgesFor(kind, taste), sounds, lists));
}

type Sounds = Readonly<Record<LaneId, LaneSounds | undefined>>;

function soundsIn(kind: SlotKind, lists: Lists, { frame }: Taste): Sounds {
  const of = (lane: LaneId) => {
    const list = lists[lane];
    const isHeard = kind.sounding === "both" || kind.sounding === lane;
    return list && isHeard ? laneSounds(list, kind.question, lane, frame) : undefined;
  };
  return { upper: of("upper"), lower: of("lower") };
}

function filled(judges: Judges, sounds: Sounds, lists: Lists): Float64Array {
  const rows = lists.upper?.grips.length ?? 1;
  const columns = lists.lower?.grips.length ?? 1;
  const table = new Float64Array(rows * columns);
  const own = (lane: LaneId, size: number) => {
    const costs = new Float64Array(size);
    for (const [index, sound] of (sounds[lane]?.sounds ?? []).entries()) {
      for (const judge of judges.lanes[lane])
        costs[index] = (costs[index] ?? 0) + judge.cost(sound);
    }
    return costs;
  };
  const [left, right] = [own("upper", rows), own("lower", columns)];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      table[row * columns + column] = (left[row] ?? 0) + (right[column] ?? 0);
    }
  }
  if (sounds.upper === undefined || sounds.lower === undefined) return table;
  for (const { cost } of judges.pair) {
    addPairs(table, sounds.upper.sounds, sounds.lower.sounds, cost);
  }
  return table;
}

/** The loop that takes the time. */
function addPairs(
  table: Float64Array,
  upper: readonly GripSound[],
  lower: readonly GripSound[],
  cost: PairJudge["cost"],
): void {
  let place = 0;
  for (const above of upper) {
    for (const below of lower) {
      table[place] = (table[place] ?? 0) + cost(above, below);
      place++;
    }
  }
}
