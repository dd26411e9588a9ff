/** What a fit starts from: who may change where, from which grips, and the tune they make. */
import type { Bar, Board, LaneId, SlotId } from "@halflap/board/board";
import { editedBoard } from "@halflap/board/edited-board";
import type { LaneEdit } from "@halflap/board/proposal";
import type { FitRequest, FitResult } from "../answer.ts";
import { type Candidates, candidatesOf, type SlotCandidates } from "../candidates/candidates.ts";
import { capoEdits, lostNotes } from "../candidates/capo-change.ts";
import { type Impossible, impossibleIn } from "../candidates/impossible.ts";
import { type Tune, tuneOf } from "../costs/tune-costs.ts";
import type { Weights } from "../costs/weights.ts";
import type { Choices, LaneChoices } from "../tune/choices.ts";

export type Ground = {
  /** The board as it was given. */
  readonly board: Board;
  /** The same with the capos that are wished. */
  readonly ready: Board;
  readonly lanes: readonly LaneId[];
  /** What makes the lanes of `board` those of `ready`. */
  readonly capos: Readonly<Record<LaneId, readonly LaneEdit[]>>;
  readonly choices: Choices;
  readonly skipped: Extract<FitResult, { readonly kind: "answers" }>["skipped"];
  readonly tune: Tune;
  readonly bars: ReadonlyMap<SlotId, Bar>;
};

/** The ground of a fit, or the wishes that can't hold together. */
export function groundOf(board: Board, request: FitRequest, weights: Weights): Ground | Impossible {
  const lanes = request.lanes.filter((lane) => !board.lanes[lane].wishes.leaveAsIs);
  const choices: Record<LaneId, LaneChoices> = { upper: new Map(), lower: new Map() };
  const capos: Record<LaneId, readonly LaneEdit[]> = { upper: [], lower: [] };
  const skipped: { slot: SlotId; words: string }[] = [];
  let ready = board;
  for (const lane of lanes) {
    const asked = request.bars === undefined ? board : withCapoAsIs(board, lane);
    const candidates = candidatesIn(asked, lane, request);
    const impossible = impossibleIn(asked, candidates);
    if (impossible !== undefined) return impossible;
    const slots = [...candidates.slots.values()];
    choices[lane] = new Map(
      slots.flatMap((each) => (each.kind === "grips" ? [[each.slot.id, each.grips]] : [])),
    );
    skipped.push(...slots.flatMap(skippedIn), ...lostNotes(board, lane, candidates.setup));
    capos[lane] = capoEdits(board, lane, candidates.setup, new Set(choices[lane].keys()));
    if (capos[lane].length > 0) ready = editedBoard(ready, lane, capos[lane]);
  }
  const tune = tuneOf(ready, choices, weights);
  return { board, ready, lanes, capos, choices, skipped, tune, bars: barsOf(board) };
}

/** A capo holds for the whole tune: where only some bars may change none is wished. */
function withCapoAsIs(board: Board, lane: LaneId): Board {
  const own = board.lanes[lane];
  const stays = { ...own, wishes: { ...own.wishes, capo: undefined } };
  return { ...board, lanes: { ...board.lanes, [lane]: stays } };
}

function candidatesIn(board: Board, lane: LaneId, { bars }: FitRequest): Candidates {
  const candidates = candidatesOf(board, lane);
  if (bars === undefined) return candidates;
  const open = new Set(bars);
  const slots = [...candidates.slots].filter(([, { bar }]) => open.has(bar.id));
  return { ...candidates, slots: new Map(slots) };
}

/** What is left alone, and what is not looked at whole. */
function skippedIn(each: SlotCandidates): readonly { slot: SlotId; words: string }[] {
  const words = each.kind === "none" ? each.words : each.cut;
  return words === undefined ? [] : [{ slot: each.slot.id, words }];
}

function barsOf(board: Board): ReadonlyMap<SlotId, Bar> {
  const bars = board.sections.flatMap((section) => section.bars);
  return new Map(bars.flatMap((bar) => bar.slots.map(({ id }) => [id, bar] as const)));
}
