/** What a change costs the hand: motion into and out of the slots it touches, and comfort. */
import type { Board, LaneId, SlotId } from "@halflap/board/board";
import { type Grip, gripPitches } from "@halflap/theory/grip";
import { difficultyOf } from "@halflap/theory/hand";
import { threadsBetween } from "@halflap/theory/threads";

/** After less before, in semitones and in the measure of `difficultyOf`. */
export type Effort = { readonly motion: number; readonly comfort: number };

/** How much further, and how much harder, the lane's hand goes on the changed board. */
export function effortOf(before: Board, after: Board, lane: LaneId): Effort {
  let motion = 0;
  let comfort = 0;
  const { setup } = before.lanes[lane];
  for (const section of before.sections) {
    const was = playedIn(before, lane, section);
    const is = playedIn(after, lane, section);
    for (const [index, grip] of was.entries()) {
      const other = is[index];
      if (grip !== other) comfort += hardness(other, setup) - hardness(grip, setup);
      const [next, otherNext] = [was[index + 1], is[index + 1]];
      if (grip === other && next === otherNext) continue;
      motion += motionTo(other, otherNext, setup) - motionTo(grip, next, setup);
    }
  }
  return { motion, comfort };
}

type Sections = Board["sections"];
type Setup = Board["lanes"]["upper"]["setup"];

/** The grips of a section as they are held; undefined where none is, or where the lane rests. */
function playedIn(
  board: Board,
  lane: LaneId,
  section: Sections[number],
): readonly (Grip | undefined)[] {
  const { grips, layOuts } = board.lanes[lane];
  const held = (bar: Sections[number]["bars"][number], slot: SlotId) =>
    layOuts.has(bar.id) ? undefined : grips.get(slot);
  return section.bars.flatMap((bar) => bar.slots.map((slot) => held(bar, slot.id)));
}

function motionTo(from: Grip | undefined, to: Grip | undefined, setup: Setup): number {
  if (from === undefined || to === undefined || from === to) return 0;
  return threadsBetween(gripPitches(from, setup), gripPitches(to, setup)).total;
}

function hardness(grip: Grip | undefined, setup: Setup): number {
  return grip === undefined ? 0 : difficultyOf(grip, setup).total;
}
