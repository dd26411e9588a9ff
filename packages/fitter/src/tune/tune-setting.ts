/** What the fitter takes from a board before it counts: grips to stand in, who lies high, times. */
import { type Board, type LaneId, laneIds, type SlotId } from "@halflap/board/board";
import { gripPitches, printGrip } from "@halflap/theory/grip";
import { type HeldGrips, heldGrips } from "../grips/held-grip.ts";
import type { Choices } from "./choices.ts";
import type { LineMove, MovesPlayed } from "./moves-played.ts";
import type { TimedKind } from "./slot-kinds.ts";

/** The board with some grip wherever one may be chosen, so that it is known what is struck. */
export function filledBoard(board: Board, choices: Choices): Board {
  const lane = (id: LaneId) => {
    const grips = new Map(board.lanes[id].grips);
    for (const [slot, [first]] of choices[id]) if (first !== undefined) grips.set(slot, first);
    return { ...board.lanes[id], grips };
  };
  return { ...board, lanes: { upper: lane("upper"), lower: lane("lower") } };
}

/** The grips of a lane in a slot: those to choose from, or the one that stands there. */
export function listFor(
  board: Board,
  choices: Choices,
  lane: LaneId,
  slot: SlotId,
): HeldGrips | undefined {
  const { grips, setup } = board.lanes[lane];
  const chosen = choices[lane].get(slot);
  if (chosen !== undefined && chosen.length > 0) return heldGrips(chosen, setup);
  const present = grips.get(slot);
  return present && heldGrips([present], setup);
}

/** Middle C: a part alone is taken for the high one from here on. Ours. */
const highFrom = 60;

/**
 * The lane that lies high: by the mean pitch of the grips as they are, by beats; a part alone by
 * middle C. Where nothing stands yet, the upper one.
 */
export function highLane(board: Board): LaneId {
  const [upper, lower] = laneIds.map((lane) => meanOf(board, lane));
  if (upper === undefined && lower === undefined) return "upper";
  return (upper ?? highFrom) >= (lower ?? highFrom) ? "upper" : "lower";
}

function meanOf(board: Board, lane: LaneId): number | undefined {
  const { grips, setup } = board.lanes[lane];
  let [sum, count] = [0, 0];
  for (const { slots } of board.sections.flatMap(({ bars }) => bars)) {
    for (const { id, length } of slots) {
      const grip = grips.get(id);
      if (grip === undefined) continue;
      const pitches = gripPitches(grip, setup);
      for (const pitch of pitches) sum += (pitch * length) / pitches.length;
      if (pitches.length > 0) count += length;
    }
  }
  return count === 0 ? undefined : sum / count;
}

/** How often a lane sounds in a slot. */
export function timesOf(kinds: readonly TimedKind[], lane: LaneId): number {
  return kinds.reduce((sum, { kind, times }) => {
    return kind.sounding === "both" || kind.sounding === lane ? sum + times : sum;
  }, 0);
}

/** The moves between a lane's figures and its grips, by slot. */
export function linesBySlot({ lines }: MovesPlayed) {
  const bySlot = new Map<string, LineMove[]>();
  for (const line of lines) {
    const name = `${line.lane} ${line.slot}`;
    bySlot.set(name, [...(bySlot.get(name) ?? []), line]);
  }
  return (lane: LaneId, slot: SlotId): readonly LineMove[] => bySlot.get(`${lane} ${slot}`) ?? [];
}

/** The grips that are liked among those to choose from; none where there is nothing to choose. */
export function likedIn(
  board: Board,
  lane: LaneId,
  list: HeldGrips | undefined,
): ReadonlySet<string> {
  const { liked } = board.lanes[lane].wishes;
  if (list === undefined || list.grips.length < 2 || liked.length === 0) return new Set();
  const welcome = new Set(liked.map(printGrip));
  return new Set(list.grips.map(({ text }) => text).filter((text) => welcome.has(text)));
}
