/** A choice of grips as an answer: parts with their edits, costs, what the checker says of it. */
import { type Board, type LaneId, laneIds, type SlotId } from "@halflap/board/board";
import { editedBoard } from "@halflap/board/edited-board";
import type { LaneEdit } from "@halflap/board/proposal";
import type { Checker } from "@halflap/checker/check";
import type { Finding } from "@halflap/checker/finding";
import { isStanding } from "@halflap/checker/weights";
import { type Grip, printGrip, sameGrip } from "@halflap/theory/grip";
import type { Answer, LanePart } from "../answer.ts";
import { costParts } from "../costs/tune-costs.ts";
import { motionTotal } from "../grips/motion-total.ts";
import { type Choice, stepsPerSemitone } from "../solver/lattice.ts";
import type { GripIn } from "../tune/choices.ts";
import type { Ground } from "./fit-ground.ts";
import { costsOf, hardestIn } from "./told-costs.ts";

/** The grips of a choice. */
export function gripsIn({ tune }: Ground, choice: Choice): GripIn {
  return (lane, slot) => {
    const place = tune.placeOf.get(slot);
    if (place === undefined) return undefined;
    return tune.places[place]?.lists[lane]?.grips[choice[lane][place] ?? 0]?.grip;
  };
}

/** The board with a choice in it. */
export function boardWith(ground: Ground, grips: GripIn): Board {
  return ground.lanes.reduce((board, lane) => {
    const edited = editedBoard(board, lane, editsFor(ground, lane, grips));
    return holding(edited, lane, ground, grips);
  }, ground.board);
}

/**
 * The same board with the very grips of the choice: edits are read anew each time, and a checker
 * asks nothing again where it sees the objects that it saw before.
 */
function holding(board: Board, lane: LaneId, { choices }: Ground, grips: GripIn): Board {
  const own = board.lanes[lane];
  const held = new Map(own.grips);
  for (const slot of choices[lane].keys()) {
    const [grip, read] = [grips(lane, slot), held.get(slot)];
    if (grip && read && sameGrip(grip, read)) held.set(slot, grip);
  }
  return { ...board, lanes: { ...board.lanes, [lane]: { ...own, grips: held } } };
}

/** What stands on the board with a choice in it. */
export function findingsWith(ground: Ground, grips: GripIn, checker: Checker): readonly Finding[] {
  return checker(boardWith(ground, grips)).filter(isStanding);
}

/** An answer told; `bound` in steps. */
export function madeAnswer(
  ground: Ground,
  choice: Choice,
  found: {
    readonly bound: number;
    readonly distance: number;
    readonly findings: readonly Finding[];
  },
): Answer | undefined {
  const grips = gripsIn(ground, choice);
  const costs = costParts(ground.tune, grips);
  const hardest = hardestIn(ground.tune, costs, ground.bars);
  if (hardest === undefined) return undefined;
  const parts = ground.lanes.map((lane) => partOf(ground, lane, grips));
  return {
    id: idOf(parts),
    parts,
    costs: costsOf(costs),
    bound: found.bound / stepsPerSemitone,
    findings: found.findings,
    hardest,
    distance: found.distance,
  };
}

function partOf(ground: Ground, lane: LaneId, grips: GripIn): LanePart {
  const chosen = [...ground.choices[lane].keys()];
  const held = chosen.flatMap((slot): readonly (readonly [SlotId, Grip])[] => {
    const grip = grips(lane, slot);
    return grip === undefined ? [] : [[slot, grip]];
  });
  const { capo } = ground.ready.lanes[lane].setup;
  return {
    lane,
    grips: new Map(held),
    edits: editsFor(ground, lane, grips),
    capo: capo === ground.board.lanes[lane].setup.capo ? undefined : capo,
    motion: motionOf(ground, lane, grips),
  };
}

/** What makes the lane so: the capo first, then the grips that are others than before. */
function editsFor(ground: Ground, lane: LaneId, grips: GripIn): readonly LaneEdit[] {
  const before = ground.ready.lanes[lane].grips;
  const changed = [...ground.choices[lane].keys()].flatMap((slot): LaneEdit[] => {
    const [grip, old] = [grips(lane, slot), before.get(slot)];
    if (grip === undefined) return [];
    const text = printGrip(grip);
    const isSame = old !== undefined && printGrip(old) === text;
    return isSame ? [] : [{ kind: "grip", slot, grip: text }];
  });
  return [...ground.capos[lane], ...changed];
}

/** All voices of the lane from grip to grip through the form, in semitones. */
function motionOf({ tune }: Ground, lane: LaneId, grips: GripIn): number {
  const pitches = (slot: SlotId) => {
    const place = tune.placeOf.get(slot);
    const list = place === undefined ? undefined : tune.places[place]?.lists[lane];
    const text = grips(lane, slot);
    return list?.grips.find(({ grip }) => grip === text)?.pitches ?? [];
  };
  return tune.links.reduce((sum, { from, to, lanes }) => {
    const times = lanes[lane].reduce((count, each) => count + each.times, 0);
    return times === 0 ? sum : sum + motionTotal(pitches(from), pitches(to)) * times;
  }, 0);
}

/** A short name that is the same for the same parts (FNV-1a, 32 bits). */
function idOf(parts: readonly LanePart[]): string {
  const text = parts
    .map(({ lane, capo, grips }) =>
      [lane, capo ?? "", ...[...grips].map(([slot, grip]) => `${slot} ${printGrip(grip)}`)].join(),
    )
    .join(";");
  let hash = 0x811c9dc5;
  for (const sign of text) hash = Math.imul(hash ^ (sign.codePointAt(0) ?? 0), 0x01000193);
  return `${laneIds.filter((lane) => parts.some((part) => part.lane === lane)).join("+")}-${(
    hash >>> 0
  ).toString(36)}`;
}
