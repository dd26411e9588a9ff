/** What every pair of grips in a slot costs, and for what: the same judges fill tables and tell. */
import { type LaneId, laneIds } from "@halflap/board/board";
import type { RuleId } from "@halflap/checker/finding";
import { frameNumber, type GripSound, type LaneSounds, laneSounds } from "../grips/grip-sound.ts";
import type { HeldGrips } from "../grips/held-grip.ts";
import { kindsOf } from "../grips/kinds.ts";
import { makeShelf } from "../grips/shelf.ts";
import type { SlotKind, TimedKind } from "../tune/slot-kinds.ts";
import { cappedTable } from "./capped.ts";
import { gripJudges } from "./grip-costs.ts";
import { type Bench, benchFor, type LoneJudge, type PairJudge, type Taste } from "./judge.ts";
import { doublingJudges } from "./pair-doubling.ts";
import { loneLowJudges, lowJudges } from "./pair-low.ts";
import { registerJudges } from "./pair-register.ts";
import { loneToneJudges, toneJudges } from "./pair-tones.ts";
import { loneVoiceJudges, voiceJudges } from "./pair-voice.ts";
import type { CausedSteps } from "./weights.ts";

/** The grips of each lane in a slot; undefined = it holds none. */
export type Lists = Readonly<Record<LaneId, HeldGrips | undefined>>;

/** Judges of pairs who look at the same things, so that their sums serve many slots. */
type Group = {
  readonly judges: (bench: Bench) => readonly PairJudge[];
  /** All of a kind of slot that they look at beside its chord. */
  readonly asks: (kind: SlotKind) => unknown;
};

const groups: readonly Group[] = [
  { judges: doublingJudges, asks: (kind) => [kind.isUnison, kind.isStatic, kind.leading] },
  { judges: toneJudges, asks: (kind) => [kind.isPassing, kind.helped, kind.isSecondary] },
  { judges: lowJudges, asks: (kind) => [kind.isUnison] },
  {
    judges: registerJudges,
    asks: (kind) => [kind.isUnison, kind.isShelfFree, kind.isCrossFree, kind.goesOn],
  },
  { judges: voiceJudges, asks: (kind) => kind.voice },
];

/** The judges of each lane's grip in a kind of slot, those that are silenced left out. */
function loneJudges(bench: Bench, lane: LaneId): readonly LoneJudge[] {
  const { sounding } = bench.kind;
  if (sounding !== "both" && sounding !== lane) return [];
  const own = heard(bench.kind, gripJudges(bench, lane));
  if (sounding === "both") return own;
  const alone = [loneToneJudges(bench), loneLowJudges(bench), loneVoiceJudges(bench, lane)];
  return [...own, ...heard(bench.kind, alone.flat())];
}

function heard<T extends PairJudge | LoneJudge>(
  kind: SlotKind,
  judges: readonly T[],
): readonly T[] {
  return judges.filter(({ rule }) => rule === undefined || !kind.silenced.has(rule));
}

const places = makeShelf<Uint16Array>(96);

/**
 * What each pair of grips costs in a slot through the whole form, row by row of the upper lane's;
 * held at the highest cost, remembered.
 */
export function pairTable(kinds: readonly TimedKind[], lists: Lists, taste: Taste): Uint16Array {
  const { frame, weights, high } = taste;
  const asked = kinds.map(({ key, times }) => `${times} ${key}`);
  const ids = [lists.upper?.id, lists.lower?.id, frameNumber(frame), high];
  const name = [...ids, Object.values(weights).join(), ...asked].join(" ");
  return places(name, () => cappedTable(pairSums(kinds, lists, taste)));
}

function pairSums(kinds: readonly TimedKind[], lists: Lists, taste: Taste): Int32Array {
  const rows = lists.upper?.grips.length ?? 1;
  const columns = lists.lower?.grips.length ?? 1;
  const sums = new Int32Array(rows * columns);
  for (const timed of kinds) {
    const bench = benchFor(timed.kind, taste);
    const sounds = soundsIn(timed.kind, lists, taste);
    const { times } = timed;
    const above = ownCosts(bench, sounds.upper, "upper", { count: rows, times });
    const below = ownCosts(bench, sounds.lower, "lower", { count: columns, times });
    addOwn(sums, above, below);
    if (sounds.upper === undefined || sounds.lower === undefined) continue;
    addHeard(sums, heardSums(bench, sounds.upper, sounds.lower), sounds.upper, sounds.lower, timed);
  }
  return sums;
}

/** What all judges of pairs say of each pair of ways to sound. */
function heardSums(bench: Bench, upper: LaneSounds, lower: LaneSounds): Int32Array {
  const sums = new Int32Array(upper.heard.length * lower.heard.length);
  for (const group of groups) {
    const table = groupTable(group, bench, upper, lower);
    for (let place = 0; table && place < sums.length; place++) {
      sums[place] = (sums[place] ?? 0) + (table[place] ?? 0);
    }
  }
  return sums;
}

/** Which grip of each list is meant. */
export type PairAt = Readonly<Record<LaneId, number>>;

const firstPair: PairAt = { upper: 0, lower: 0 };

/** What one pair of grips costs in a slot, cause by cause; of the first ones if none is said. */
export function pairCauses(
  kinds: readonly TimedKind[],
  lists: Lists,
  taste: Taste,
  at: PairAt = firstPair,
): readonly CausedSteps[] {
  return kinds.flatMap((timed) => verdicts(timed, lists, taste, at));
}

/** The same by rule; what no rule says is left out. */
export function costsByRule(
  kinds: readonly TimedKind[],
  lists: Lists,
  taste: Taste,
): ReadonlyMap<RuleId, number> {
  const costs = new Map<RuleId, number>();
  for (const { rule, steps } of kinds.flatMap((timed) =>
    verdicts(timed, lists, taste, firstPair),
  )) {
    if (rule !== undefined) costs.set(rule, (costs.get(rule) ?? 0) + steps);
  }
  return costs;
}

type Verdict = CausedSteps & { readonly rule: RuleId | undefined };

function verdicts(
  { kind, times }: TimedKind,
  lists: Lists,
  taste: Taste,
  at: PairAt,
): readonly Verdict[] {
  const bench = benchFor(kind, taste);
  const sounds = soundsIn(kind, lists, taste);
  const [upper, lower] = [sounds.upper?.sounds[at.upper], sounds.lower?.sounds[at.lower]];
  const alone = laneIds.flatMap((lane) => {
    const sound = sounds[lane]?.sounds[at[lane]];
    if (sound === undefined) return [];
    return loneJudges(bench, lane).map(({ rule, cause, cost }) => {
      return { rule, cause, steps: cost(sound) * times };
    });
  });
  if (upper === undefined || lower === undefined) return alone;
  const judges = groups.flatMap((group) => heard(kind, group.judges(bench)));
  const together = judges.map(({ rule, cause, cost }) => {
    return { rule, cause, steps: cost(upper, lower) * times };
  });
  return [...alone, ...together];
}

const tables = makeShelf<Int32Array>(160);

/** Played once; remembered, as chords come back and most of a board stays as it is. */
function groupTable(
  group: Group,
  bench: Bench,
  upper: LaneSounds,
  lower: LaneSounds,
): Int32Array | undefined {
  const { kind, weights, high } = bench;
  const judges = heard(kind, group.judges(bench));
  if (judges.length === 0) return undefined;
  const asked = [groups.indexOf(group), group.asks(kind), [...kind.silenced], high];
  const name = `${upper.id} ${lower.id} ${JSON.stringify([...asked, Object.values(weights)])}`;
  return tables(name, () => {
    const table = new Int32Array(upper.heard.length * lower.heard.length);
    for (const judge of judges) addPairs(table, upper.heard, lower.heard, judge);
    return table;
  });
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

/** What each grip of a lane costs by itself; one nothing where there is none. */
function ownCosts(
  bench: Bench,
  sounds: LaneSounds | undefined,
  lane: LaneId,
  { count, times }: { readonly count: number; readonly times: number },
): Int32Array {
  const judges = loneJudges(bench, lane);
  const costs = new Int32Array(count);
  for (const [index, sound] of sounds?.sounds.entries() ?? []) {
    for (const { cost } of judges) costs[index] = (costs[index] ?? 0) + cost(sound) * times;
  }
  return costs;
}

function addOwn(sums: Int32Array, above: Int32Array, below: Int32Array): void {
  let place = 0;
  for (let row = 0; row < above.length; row++) {
    const left = above[row] ?? 0;
    for (let column = 0; column < below.length; column++, place++) {
      sums[place] = (sums[place] ?? 0) + left + (below[column] ?? 0);
    }
  }
}

/** Adds to each pair of grips what the ways in which they sound come to. */
function addHeard(
  sums: Int32Array,
  heard: Int32Array,
  upper: LaneSounds,
  lower: LaneSounds,
  { times }: TimedKind,
): void {
  const width = lower.heard.length;
  const [rows, columns] = [upper.heardAs, lower.heardAs];
  let place = 0;
  for (let row = 0; row < rows.length; row++) {
    const start = (rows[row] ?? 0) * width;
    for (let column = 0; column < columns.length; column++, place++) {
      const more = heard[start + (columns[column] ?? 0)] ?? 0;
      sums[place] = (sums[place] ?? 0) + more * times;
    }
  }
}

/** Adds what a judge says of all pairs; what looks alike to it is asked about once. */
function addPairs(
  table: Int32Array,
  upper: readonly GripSound[],
  lower: readonly GripSound[],
  { cost, sees }: PairJudge,
): void {
  if (sees === undefined) {
    addEachPair(table, upper, lower, cost);
    return;
  }
  const [rows, columns] = [kindsOf(upper, sees.upper), kindsOf(lower, sees.lower)];
  const small = new Int32Array(rows.first.length * columns.first.length);
  addEachPair(small, rows.first, columns.first, cost);
  const width = columns.first.length;
  let place = 0;
  for (let row = 0; row < rows.kinds.length; row++) {
    const start = (rows.kinds[row] ?? 0) * width;
    for (let column = 0; column < columns.kinds.length; column++, place++) {
      table[place] = (table[place] ?? 0) + (small[start + (columns.kinds[column] ?? 0)] ?? 0);
    }
  }
}

/** The loop that takes the time: no object is made in it. */
function addEachPair(
  table: Int32Array,
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
