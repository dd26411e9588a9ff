/** Something tried: what is played of the board then, and who of it is heard. */
import type { BarId, Board, Lane, LaneId, SlotId } from "@halflap/board/board";
import { editedBoard } from "@halflap/board/edited-board";
import type { LaneEdit } from "@halflap/board/proposal";
import type { Part, PlayEvent } from "@halflap/sound/play-event";
import { type Ticks, ticks } from "@halflap/theory/units";
import type { Once } from "./order-of-play.ts";

/** Bars or one grip heard once, with changes that nobody has made yet. */
export type Trial = {
  readonly bars: Once;
  /** Which lane the changes are in, or which one is meant. */
  readonly lane: LaneId;
  readonly edits: readonly LaneEdit[];
  /** Changes in the other lane that are tried along. */
  readonly also?: { readonly lane: LaneId; readonly edits: readonly LaneEdit[] } | undefined;
  /** The slot whose grips alone are struck once; undefined = the bars are played. */
  readonly slot: SlotId | undefined;
  /** Whether it is counted in; nothing tried is, unless it says so. */
  readonly countsIn?: boolean;
  /** Everybody whom the mix lets through, both lanes, or the lane that is meant. */
  readonly heard: "all" | "lanes" | "lane";
};

/** From the start of its bar. */
export type SlotSpan = { readonly from: Ticks; readonly to: Ticks };

/** The board as it is tried: for a grip, each lane strikes it once and lets it ring. */
export function triedBoard(board: Board, { bars, lane, edits, also, slot }: Trial): Board {
  const own = edits.length === 0 ? board : editedBoard(board, lane, edits);
  const edited = also === undefined ? own : editedBoard(own, also.lane, also.edits);
  if (slot === undefined) return edited;
  const { upper, lower } = edited.lanes;
  const lanes = { upper: plainly(upper, bars.from), lower: plainly(lower, bars.from) };
  return { ...edited, feel: "straight", lanes };
}

/** Where a slot lies in its bar; undefined when it is gone. */
export function slotSpan(
  { sections }: Pick<Board, "sections">,
  slot: SlotId | undefined,
): SlotSpan | undefined {
  if (slot === undefined) return undefined;
  for (const section of sections) {
    for (const { slots } of section.bars) {
      const found = slots.find(({ id }) => id === slot);
      if (found) return { from: found.start, to: ticks(found.start + found.length) };
    }
  }
  return undefined;
}

/** Whether an event belongs to what is tried; times in seconds from the start of its bars. */
export function isTried(
  { lane, heard }: Trial,
  span: { readonly from: number; readonly to: number } | undefined,
  event: PlayEvent,
): boolean {
  const lanes: readonly Part[] = heard === "lane" ? [lane] : ["upper", "lower"];
  if (heard !== "all" && !lanes.includes(event.part)) return false;
  if (span === undefined) return true;
  // The strings of a stroke come a little after its time; the next slot's all come at theirs.
  return event.start > span.from - closeSeconds && event.start < span.to - closeSeconds;
}

/** Times that lie closer than this are one: they come from the same tick. */
const closeSeconds = 1e-6;

/** No pattern, no fill, no mark: grips are struck where their slots start, and ring. */
function plainly(lane: Lane, bar: BarId): Lane {
  const none = { lane: undefined, sections: new Map(), bars: new Map(), passes: new Map() };
  return {
    ...lane,
    strumming: none,
    fills: new Map(),
    dynamics: new Map(),
    palmMutes: new Set(),
    letRings: new Set([bar]),
    layOuts: new Set(),
    restingPasses: new Set(),
  };
}
