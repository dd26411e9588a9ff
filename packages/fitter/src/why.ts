/** Why this grip: what the next best one would cost, and where. */
import type { BarId, Board, LaneId, SlotId } from "@halflap/board/board";
import { type Grip, printGrip } from "@halflap/theory/grip";
import type { Answer, CauseCost, FitRequest } from "./answer.ts";
import { type Ground, groundOf } from "./answers/fit-ground.ts";
import { gripsIn } from "./answers/made-answer.ts";
import { causesOf } from "./answers/told-costs.ts";
import { wordsForMore } from "./answers/why-words.ts";
import { weightsFor } from "./costs/leanings.ts";
import { costParts, latticeOf, type PlacedSteps } from "./costs/tune-costs.ts";
import type { FitTools } from "./fit.ts";
import { type Choice, costOf, type Lattice, stepsPerSemitone } from "./solver/lattice.ts";
import type { Allowed } from "./solver/limits.ts";
import { marginals } from "./solver/marginals.ts";
import { solve } from "./solver/solve.ts";

/** Another grip in one slot: the lane's others free to follow, the other lane as it is. */
export type NextBest = {
  readonly grip: Grip;
  /** What the whole tune would cost more, in semitones, 0 or more. */
  readonly more: number;
  /** What makes the difference, by cause, the largest first; signed. */
  readonly causes: readonly CauseCost[];
  /** The bars that would cost more, the dearest first. */
  readonly bars: readonly { readonly bar: BarId; readonly more: number }[];
  /** "x-x-3-2-1-x would cost 4.5 more: 3 for motion in bar 7, 1.5 for ...". */
  readonly words: string;
};

/**
 * The next best grips of a slot in an answer, at most `most`, the cheapest first; none where the
 * lane had nothing to choose. The other lane holds what it holds in the answer. Where the lane has
 * a better part around that, only the slots next to it follow, else that part would be told
 * instead. SPEC.md F32.
 */
export function whyThis(
  board: Board,
  request: FitRequest,
  answer: Answer,
  at: { readonly lane: LaneId; readonly slot: SlotId; readonly most: number },
  tools: FitTools,
): readonly NextBest[] {
  const ground = groundOf(board, request, weightsFor(request.leaning));
  if ("kind" in ground) return [];
  const place = ground.tune.placeOf.get(at.slot);
  const list = place === undefined ? undefined : ground.tune.places[place]?.lists[at.lane];
  const choice = choiceOf(ground, answer);
  if (place === undefined || list === undefined || list.grips.length < 2) return [];
  const lattice = latticeOf(ground.tune);
  const cost = costOf(lattice, choice);
  const around = heldBut(lattice, choice, at.lane, () => true);
  const isBest = cost <= (solve(lattice, { ...tools, allowed: around })?.cost ?? cost);
  const near = nearTo(lattice, place);
  const found = marginals(lattice, {
    ...{ place, lane: at.lane, minPlus: tools.minPlus, most: at.most + 1 },
    allowed: isBest ? around : heldBut(lattice, choice, at.lane, (index) => near.has(index)),
  });
  const before = costParts(ground.tune, gripsIn(ground, choice));
  return found
    .filter(({ state }) => state !== choice[at.lane][place])
    .slice(0, at.most)
    .flatMap((other): NextBest[] => {
      const grip = list.grips[other.state]?.grip;
      if (grip === undefined) return [];
      const more = Math.max(0, other.cost - cost) / stepsPerSemitone;
      const isLess = other.cost < cost;
      const after = costParts(ground.tune, gripsIn(ground, other.choice));
      return [{ grip, more, ...differenceOf(ground, before, after, { grip, more, isLess }) }];
    });
}

/** The states that an answer holds; where it says nothing, the first. */
function choiceOf({ tune }: Ground, { parts }: Answer): Choice {
  const states = (lane: LaneId) => {
    const held = parts.find((part) => part.lane === lane)?.grips;
    return tune.places.map(({ slot, lists }) => {
      const grip = held?.get(slot);
      const text = grip && printGrip(grip);
      return Math.max(0, lists[lane]?.grips.findIndex((each) => each.text === text) ?? 0);
    });
  };
  return { upper: states("upper"), lower: states("lower") };
}

/** How many links away the grips may follow. */
const reach = 1;

function nearTo({ links }: Lattice, place: number): ReadonlySet<number> {
  let near = new Set([place]);
  for (let step = 0; step < reach; step++) {
    const beside = links.filter(({ from, to }) => near.has(from) || near.has(to));
    near = new Set([...near, ...beside.flatMap(({ from, to }) => [from, to])]);
  }
  return near;
}

/** All as the choice holds it, but for a lane where it may follow. */
function heldBut(
  { places }: Lattice,
  choice: Choice,
  lane: LaneId,
  follows: (place: number) => boolean,
): ReadonlyMap<number, Allowed> {
  return new Map(
    places.map((_, index): readonly [number, Allowed] => {
      const held = { upper: [choice.upper[index] ?? 0], lower: [choice.lower[index] ?? 0] };
      return [index, follows(index) ? { ...held, [lane]: undefined } : held];
    }),
  );
}

function differenceOf(
  { tune, bars }: Ground,
  before: readonly PlacedSteps[],
  after: readonly PlacedSteps[],
  asked: Parameters<typeof wordsForMore>[0],
): Pick<NextBest, "causes" | "bars" | "words"> {
  const parts = [...after, ...before.map((part) => ({ ...part, steps: -part.steps }))];
  const byBar = new Map<BarId, PlacedSteps[]>();
  const numbers = new Map<BarId, number>();
  for (const part of parts) {
    const slot = tune.places[part.place]?.slot;
    const bar = slot && bars.get(slot);
    if (bar === undefined) continue;
    byBar.set(bar.id, [...(byBar.get(bar.id) ?? []), part]);
    numbers.set(bar.id, bar.number);
  }
  const dearer = [...byBar]
    .map(([bar, own]) => ({
      bar,
      more: own.reduce((sum, { steps }) => sum + steps, 0) / stepsPerSemitone,
    }))
    .filter(({ more }) => more > 0)
    .sort((one, other) => other.more - one.more);
  const inBars = [...byBar].flatMap(([bar, own]) =>
    causesOf(own).map((each) => ({ ...each, bar: numbers.get(bar) ?? 0 })),
  );
  return { causes: causesOf(parts), bars: dearer, words: wordsForMore(asked, inBars) };
}
