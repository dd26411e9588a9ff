/** Looks at a finding from the lane of one player: its slots, their grips, and those beside. */
import type { Board, LaneId, Slot } from "@halflap/board/board";
import type { Finding } from "../finding.ts";
import type { Segment } from "../segments.ts";
import { isPair } from "../segments.ts";
import { type PreparedBoard, soundingChord } from "../tune.ts";
import type { Place, Situation } from "./candidate.ts";

/** The finding as the player of a lane meets it. */
export function situationOf(
  board: Board,
  prepared: PreparedBoard,
  finding: Finding,
  lane: LaneId,
): Situation {
  const slots = new Set(finding.slots);
  const ids = new Set(finding.bars);
  const segments = segmentsBySlot(prepared);
  const { grips, setup } = board.lanes[lane];
  const places: Place[] = [];
  for (const section of board.sections) {
    const inOrder = section.bars.flatMap((bar) => bar.slots.map((slot) => ({ bar, slot })));
    for (const [index, { bar, slot }] of inOrder.entries()) {
      const segment = segments.get(slot.id);
      if (!slots.has(slot.id) || segment === undefined) continue;
      const gripOf = (other: { readonly slot: Slot } | undefined) =>
        other && grips.get(other.slot.id);
      places.push({
        slot,
        bar,
        section,
        chord: soundingChord(segment),
        grip: grips.get(slot.id),
        before: gripOf(inOrder[index - 1]),
        after: gripOf(inOrder[index + 1]),
        segment,
      });
    }
  }
  const home = new Set(places.map((place) => place.section.id));
  return {
    board,
    finding,
    lane,
    setup,
    tune: prepared.tune,
    places,
    bars: board.sections.flatMap((section) => section.bars.filter((bar) => ids.has(bar.id))),
    passages: prepared.passages.filter(({ passage }) => home.has(passage.section.id)),
  };
}

function segmentsBySlot(prepared: PreparedBoard): ReadonlyMap<string, Segment> {
  const segments = new Map<string, Segment>();
  for (const segment of prepared.passages.flatMap((passage) => passage.segments)) {
    const known = segments.get(segment.slot.id);
    if (known === undefined || (!isPair(known) && isPair(segment))) {
      segments.set(segment.slot.id, segment);
    }
  }
  return segments;
}
