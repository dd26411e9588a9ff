/** What a lane's steps between two slots cost, and for what: one set of judges fills and tells. */
import type { LaneId } from "@halflap/board/board";
import type { RuleId } from "@halflap/checker/finding";
import { fastMove } from "@halflap/checker/impossible-move";
import { frameNumber } from "../grips/grip-sound.ts";
import type { HeldGrip, HeldGrips } from "../grips/held-grip.ts";
import { makeShelf } from "../grips/shelf.ts";
import { likenesses, likenessOf, travelAt, type WayTable, wayTable } from "../grips/way-table.ts";
import type { LineMove, TimedStep } from "../tune/moves-played.ts";
import { setCapped } from "./capped.ts";
import type { Taste } from "./judge.ts";
import { handWay, type StepJudge, stepJudges } from "./step-judges.ts";
import { type CausedSteps, findingSteps } from "./weights.ts";

/** The steps of one lane from one slot to another, with the grips at both ends. */
export type LaneStep = {
  readonly lane: LaneId;
  readonly from: HeldGrips;
  readonly to: HeldGrips;
  readonly kinds: readonly TimedStep[];
};

const tables = makeShelf<Uint16Array>(128);

/** What each way costs through the whole form, row by row of the grips left; as `capped`. */
export function stepTable(step: LaneStep, taste: Taste): Uint16Array {
  return tables(nameOf(step, taste), () => {
    const ways = wayTable(step.from, step.to, taste.frame.limits);
    const judges = judgesOf(step, ways, taste);
    return filledTable(ways, {
      voices: summed(judges, "voices", ways.voices.motion.length),
      hands: summed(judges, "hand", handWay(ways.hands.lengths.length, 0)),
      strings: judges.flatMap(({ judge, times }) =>
        judge.looksAt === "strings" ? [{ cost: judge.cost, times }] : [],
      ),
    });
  });
}

/** What one way costs, cause by cause; lists of one grip each. */
export function stepCauses(step: LaneStep, taste: Taste): readonly CausedSteps[] {
  return verdictsOn(step, taste).map(({ judge: { cause }, steps }) => ({ cause, steps }));
}

/** The same by rule, in steps; what no rule says is left out. */
export function stepsByRule(step: LaneStep, taste: Taste): ReadonlyMap<RuleId, number> {
  const costs = new Map<RuleId, number>();
  for (const { judge, steps } of verdictsOn(step, taste)) {
    const { rule } = judge;
    if (rule !== undefined) costs.set(rule, (costs.get(rule) ?? 0) + steps);
  }
  return costs;
}

/** What the moves to and from the lane's own fills and lines cost a grip: R29. */
export function lineSteps(moves: readonly LineMove[], held: HeldGrip, taste: Taste): number {
  if (moves.length === 0) return 0;
  return moves.reduce((sum, { lane, side, move, times, isSilenced }) => {
    if (isSilenced) return sum;
    const asGrip = { ...move[side], notes: held.notes, stopped: held.stopped };
    const severity = fastMove({ ...move, [side]: asGrip }, lane, taste.frame)?.severity;
    return severity === undefined ? sum : sum + findingSteps(taste.weights, severity) * times;
  }, 0);
}

type TimedJudge = { readonly judge: StepJudge; readonly times: number };

function judgesOf({ lane, kinds }: LaneStep, ways: WayTable, taste: Taste): readonly TimedJudge[] {
  return kinds.flatMap(({ kind, times }) =>
    stepJudges(ways, kind, lane, taste).map((judge) => ({ judge, times })),
  );
}

function verdictsOn(step: LaneStep, taste: Taste) {
  const ways = wayTable(step.from, step.to, taste.frame.limits);
  const [from, to] = [step.from.grips[0], step.to.grips[0]];
  const likeness = from && to ? likenessOf(from, to) : likenesses.none;
  const hand = handWay(travelAt(ways, 0, 0), likeness);
  return judgesOf(step, ways, taste).map(({ judge, times }) => {
    if (judge.looksAt === "strings") return { judge, steps: (judge.cost(0)?.(0) ?? 0) * times };
    return { judge, steps: judge.cost(judge.looksAt === "hand" ? hand : 0) * times };
  });
}

/** What the judges that look at one thing say of each of its ways. */
function summed(
  judges: readonly TimedJudge[],
  looksAt: "voices" | "hand",
  count: number,
): Int32Array {
  const sums = new Int32Array(count);
  for (const { judge, times } of judges) {
    if (judge.looksAt !== looksAt) continue;
    for (let way = 0; way < count; way++) sums[way] = (sums[way] ?? 0) + judge.cost(way) * times;
  }
  return sums;
}

type Sums = {
  readonly voices: Int32Array;
  readonly hands: Int32Array;
  readonly strings: readonly {
    readonly cost: Extract<StepJudge, { readonly looksAt: "strings" }>["cost"];
    readonly times: number;
  }[];
};

/** Every way as the sum of what its voices, the hand and the strings come to. */
function filledTable(ways: WayTable, { voices, hands, strings }: Sums): Uint16Array {
  const { from, to } = ways;
  const columns = to.grips.length;
  const table = new Uint16Array(from.grips.length * columns);
  const row = new Int32Array(columns);
  const plain = unlikeSums(ways, hands);
  const alike = alikeIn(to);
  for (const [index, held] of from.grips.entries()) {
    addUnlike(row, index, ways, { voices, hands: plain });
    for (const column of alike(held)) {
      const other = to.grips[column];
      const travel = travelAt(ways, index, column);
      const likeness = other ? likenessOf(held, other) : likenesses.none;
      const own = hands[handWay(travel, likeness)] ?? 0;
      row[column] = (row[column] ?? 0) + own - (hands[handWay(travel, likenesses.none)] ?? 0);
    }
    for (const { cost, times } of strings) addStrings(row, cost(index), times);
    setCapped(table, index * columns, row);
  }
  return table;
}

/** By way of the hand, of grips that are not alike. */
function unlikeSums({ hands: { travels } }: WayTable, hands: Int32Array): Int32Array {
  const sums = new Int32Array(travels.length);
  for (let way = 0; way < sums.length; way++) {
    sums[way] = hands[handWay(travels[way] ?? 0, likenesses.none)] ?? 0;
  }
  return sums;
}

/** The loop that takes the time: every way of a grip as if no grip that follows were like it. */
function addUnlike(
  row: Int32Array,
  index: number,
  ways: WayTable,
  { voices, hands }: Pick<Sums, "voices" | "hands">,
): void {
  const [voiced, placed] = [ways.voices, ways.hands];
  const [voicings, positions] = [voiced.columns, placed.columns];
  const voice = (voiced.rows[index] ?? 0) * voiced.width;
  const hand = (placed.rows[index] ?? 0) * placed.width;
  for (let column = 0; column < row.length; column++) {
    const own = voices[voice + (voicings[column] ?? 0)] ?? 0;
    row[column] = own + (hands[hand + (positions[column] ?? 0)] ?? 0);
  }
}

function addStrings(
  row: Int32Array,
  cost: ((column: number) => number) | undefined,
  times: number,
): void {
  if (cost === undefined) return;
  for (let column = 0; column < row.length; column++) {
    row[column] = (row[column] ?? 0) + cost(column) * times;
  }
}

/** The grips of a list that are the same as one, or the same shape elsewhere, by number. */
function alikeIn({ grips }: HeldGrips): (held: HeldGrip) => Iterable<number> {
  const byId = new Map<number, number[]>();
  const byShape = new Map<number, number[]>();
  const add = (map: Map<number, number[]>, key: number, column: number) => {
    const known = map.get(key);
    if (known === undefined) map.set(key, [column]);
    else known.push(column);
  };
  for (const [column, { id, shape }] of grips.entries()) {
    if (shape === undefined) add(byId, id, column);
    else add(byShape, shape, column);
  }
  // The same grip has the same shape.
  return ({ id, shape }) => (shape === undefined ? byId.get(id) : byShape.get(shape)) ?? [];
}

function nameOf({ lane, from, to, kinds }: LaneStep, { frame, weights, high }: Taste): string {
  const asked = kinds.map(({ key, times }) => `${times} ${key}`).join();
  const { tempo, beat } = frame;
  const values = Object.values(weights).join();
  return [from.id, to.id, lane === high, tempo, beat, frameNumber(frame), values, asked].join(" ");
}
