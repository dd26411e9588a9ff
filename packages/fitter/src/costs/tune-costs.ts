/** What two parts cost through a whole tune: every place and link, as tables and cause by cause. */
import { type BarId, type Board, type LaneId, laneIds, type SlotId } from "@halflap/board/board";
import { type HeldGrip, type HeldGrips, heldGrips } from "../grips/held-grip.ts";
import type { Lattice, Link, Place } from "../solver/lattice.ts";
import type { Choices, GripIn } from "../tune/choices.ts";
import { type FigureNote, figureNotes, figureRub, rubsWith } from "../tune/figure-rubs.ts";
import { type LineMove, movesPlayed, type SlotLink } from "../tune/moves-played.ts";
import { type Played, playedBoard } from "../tune/played.ts";
import { slotKinds, type TimedKind } from "../tune/slot-kinds.ts";
import {
  filledBoard,
  highLane,
  likedIn,
  linesBySlot,
  listFor,
  timesOf,
} from "../tune/tune-setting.ts";
import { cappedParts, withMore } from "./capped.ts";
import type { Taste } from "./judge.ts";
import { type Lists, pairCauses, pairTable } from "./pair-costs.ts";
import { lineSteps, stepCauses, stepTable } from "./step-costs.ts";
import { type CausedSteps, eighths, findingSteps, stepsFor, type Weights } from "./weights.ts";

/** A slot with all that its costs are made of. */
export type TunePlace = {
  readonly slot: SlotId;
  readonly bar: BarId;
  /** In ticks. */
  readonly length: number;
  readonly lists: Lists;
  readonly kinds: readonly TimedKind[];
  readonly lines: Readonly<Record<LaneId, readonly LineMove[]>>;
  /** Notes of the other lane's figures that are held over each lane's grip. */
  readonly figures: Readonly<Record<LaneId, readonly FigureNote[]>>;
  /** How often each lane sounds here. */
  readonly times: Readonly<Record<LaneId, number>>;
  /** The liked grips among those to choose from, as texts; empty without any. */
  readonly liked: Readonly<Record<LaneId, ReadonlySet<string>>>;
};

export type Tune = {
  readonly taste: Taste;
  readonly played: Played;
  /** In chart order. */
  readonly places: readonly TunePlace[];
  readonly links: readonly SlotLink[];
  readonly placeOf: ReadonlyMap<SlotId, number>;
};

/** A part of a cost with where it arises: at a slot, or on the way into it. */
export type PlacedSteps = CausedSteps & { readonly place: number };

/** The board as the fitter sees it; its lanes are set up as they shall be. */
export function tuneOf(board: Board, choices: Choices, weights: Weights): Tune {
  const filled = filledBoard(board, choices);
  const played = playedBoard(filled);
  const kinds = slotKinds(filled, played);
  const moves = movesPlayed(filled, played);
  const taste: Taste = { frame: played.frame, weights, high: highLane(board) };
  const lines = linesBySlot(moves);
  const figures = figureNotes(filled, played);
  const places = board.sections.flatMap(({ bars }) =>
    bars.flatMap((bar) =>
      bar.slots.map((slot): TunePlace => {
        const own = kinds.get(slot.id) ?? [];
        const list = (lane: LaneId) => listFor(board, choices, lane, slot.id);
        const lists = { upper: list("upper"), lower: list("lower") };
        return {
          ...{ slot: slot.id, bar: bar.id, length: slot.length, lists },
          kinds: own,
          lines: { upper: lines("upper", slot.id), lower: lines("lower", slot.id) },
          figures: { upper: figures("upper", slot.id), lower: figures("lower", slot.id) },
          times: { upper: timesOf(own, "upper"), lower: timesOf(own, "lower") },
          liked: {
            upper: likedIn(board, "upper", lists.upper),
            lower: likedIn(board, "lower", lists.lower),
          },
        };
      }),
    ),
  );
  const placeOf = new Map(places.map(({ slot }, index) => [slot, index]));
  return { taste, played, places, links: moves.links, placeOf };
}

/** All costs as tables for the solver. Sums above the highest cost are held there. */
export function latticeOf(tune: Tune): Lattice {
  const places = tune.places.map((place): Place => {
    const [upper, lower] = [sizeOf(place.lists.upper), sizeOf(place.lists.lower)];
    const table = pairTable(place.kinds, place.lists, tune.taste);
    const own = { upper: ownTable(place, "upper", tune), lower: ownTable(place, "lower", tune) };
    return { upper, lower, pairs: withMore(table, own.upper, own.lower) };
  });
  const links = tune.links.flatMap((link): Link[] => {
    const [from, to] = [tune.placeOf.get(link.from), tune.placeOf.get(link.to)];
    if (from === undefined || to === undefined) return [];
    const of = (lane: LaneId) => linkTable(tune, link, lane, from, to);
    return [{ from, to, upper: of("upper"), lower: of("lower") }];
  });
  return { places, links };
}

/** What some grips cost, part by part; the parts add up to `costOf` of the lattice. */
export function costParts(tune: Tune, held: GripIn): readonly PlacedSteps[] {
  const { taste, played } = tune;
  const list = (lane: LaneId, slot: SlotId) => {
    const grip = held(lane, slot);
    return grip && heldGrips([grip], played.frame.setups[lane]);
  };
  const inPlaces = tune.places.flatMap((place, index) => {
    const found = {
      upper: foundIn(place.lists.upper, list("upper", place.slot)),
      lower: foundIn(place.lists.lower, list("lower", place.slot)),
    };
    const lists = { upper: found.upper.list, lower: found.lower.list };
    const at = { upper: found.upper.at, lower: found.lower.at };
    const own = laneIds.flatMap((lane) =>
      ownCauses(place, lane, lists[lane]?.grips[at[lane]], tune),
    );
    return placed([...pairCauses(place.kinds, lists, taste, at), ...own], index);
  });
  const onLinks = tune.links.flatMap((link) => {
    const place = tune.placeOf.get(link.to);
    return laneIds.flatMap((lane) => {
      const [from, to] = [list(lane, link.from), list(lane, link.to)];
      const kinds = link.lanes[lane];
      if (place === undefined || from === undefined || to === undefined) return [];
      return placed(stepCauses({ lane, from, to, kinds }, taste), place);
    });
  });
  return [...inPlaces, ...onLinks];
}

/** Most judges have nothing to say: what is left out of the sum is left out of the list. */
function placed(parts: readonly CausedSteps[], place: number): readonly PlacedSteps[] {
  const costly = cappedParts(parts.filter(({ steps }) => steps > 0));
  return costly.map(({ cause, steps }) => ({ cause, steps, place }));
}

/** A grip where it stands among others, of which all is known already; else by itself. */
function foundIn(
  known: HeldGrips | undefined,
  alone: HeldGrips | undefined,
): { readonly list: HeldGrips | undefined; readonly at: number } {
  const id = alone?.grips[0]?.id;
  const at = known?.grips.findIndex((held) => held.id === id) ?? -1;
  return at < 0 || known?.setting !== alone?.setting ? { list: alone, at: 0 } : { list: known, at };
}

function linkTable(
  { places, taste }: Tune,
  link: SlotLink,
  lane: LaneId,
  from: number,
  to: number,
): Uint16Array | undefined {
  const [one, other] = [places[from]?.lists[lane], places[to]?.lists[lane]];
  const kinds = link.lanes[lane];
  if (one === undefined || other === undefined || kinds.length === 0) return undefined;
  return stepTable({ lane, from: one, to: other, kinds }, taste);
}

/** What the grips of a lane cost by themselves in a place beside what judges of the slot say. */
function ownTable(place: TunePlace, lane: LaneId, tune: Tune): readonly number[] {
  const grips = place.lists[lane]?.grips ?? [];
  const asked = place.lines[lane].length + place.figures[lane].length + place.liked[lane].size;
  if (asked === 0) return grips.map(() => 0);
  return grips.map((held) =>
    ownCauses(place, lane, held, tune).reduce((sum, { steps }) => sum + steps, 0),
  );
}

function ownCauses(
  place: TunePlace,
  lane: LaneId,
  held: HeldGrip | undefined,
  { taste }: Tune,
): readonly CausedSteps[] {
  if (held === undefined) return [];
  const liked = place.liked[lane];
  const rubs = rubsWith(place.figures[lane], held, taste.frame);
  const isAmiss = liked.size > 0 && !liked.has(held.text);
  const notLiked = isAmiss ? stepsFor(taste.weights.notLiked, eighths) * place.times[lane] : 0;
  return [
    { cause: "move with no time", steps: lineSteps(place.lines[lane], held, taste) },
    { cause: "rub", steps: rubs * findingSteps(taste.weights, figureRub) },
    { cause: "not what was liked", steps: notLiked },
  ];
}

function sizeOf(list: HeldGrips | undefined): number {
  return Math.max(1, list?.grips.length ?? 1);
}
