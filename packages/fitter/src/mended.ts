/** A whole part beyond its grips: strums, fills and rests changed until nothing blocks playing. */
import type { Board, LaneId, SlotId } from "@halflap/board/board";
import { editedBoard } from "@halflap/board/edited-board";
import type { LaneEdit } from "@halflap/board/proposal";
import { type Checker, makeChecker } from "@halflap/checker/check";
import type { Finding } from "@halflap/checker/finding";
import { type WayOut, waysOut } from "@halflap/checker/ways-out";
import { isStanding, totalOf } from "@halflap/checker/weights";
import { printGrip } from "@halflap/theory/grip";
import type { Answer, FitRequest } from "./answer.ts";
import { candidatesOf } from "./candidates/candidates.ts";

/** One more change to a lane, on top of the answer and of the changes before it. */
export type MendingChange = {
  readonly lane: LaneId;
  /** What it does, as a bandmate says it. */
  readonly words: string;
  readonly edits: readonly LaneEdit[];
};

export type Mending = {
  /** In the order in which they are made. */
  readonly changes: readonly MendingChange[];
  /** Stops and fixes that stay even so. */
  readonly left: number;
};

/** More changes than this are not made: what needs them is another arrangement. */
const changesMax = 64;

/**
 * What makes the board with the answer in it whole: for each stop and fix that stands the checker's
 * way out, those that leave the grips alone first, each checked with all before it; until none is
 * left or none helps. Other grips come only where they were asked for. SPEC.md F33.
 */
export function mended(board: Board, answer: Answer, request: FitRequest): Mending {
  const checker = makeChecker();
  const changes: MendingChange[] = [];
  const hopeless = new Set<string>();
  let whole = answer.parts.reduce((made, { lane, edits }) => editedBoard(made, lane, edits), board);
  const open = new Map(request.lanes.map((lane) => [lane, openIn(whole, lane, request)]));
  let blocking = blockingOn(whole, checker);
  while (changes.length < changesMax) {
    const finding = blocking.find(({ id }) => !hopeless.has(id));
    if (finding === undefined) break;
    const way = wayFor(whole, finding, { checker, open });
    if (way === undefined) {
      hopeless.add(finding.id);
      continue;
    }
    whole = editedBoard(whole, way.lane, way.edits);
    changes.push({ lane: way.lane, words: way.words, edits: way.edits });
    blocking = blockingOn(whole, checker);
  }
  return { changes, left: blocking.length };
}

/** Stops, then fixes, each in the order of the chart. */
function blockingOn(board: Board, checker: Checker): readonly Finding[] {
  const standing = checker(board).filter(isStanding);
  const of = (severity: Finding["severity"]) =>
    standing.filter((finding) => finding.severity === severity);
  return [...of("stop"), ...of("fix")];
}

/** The grips of each slot that may be changed, as they are printed; by lane. */
type Open = ReadonlyMap<LaneId, ReadonlyMap<SlotId, ReadonlySet<string>>>;

/** What may be played in the lane: in the bars asked, where nothing is locked, as it is wished. */
function openIn(board: Board, lane: LaneId, { bars }: FitRequest) {
  const { locked } = board.lanes[lane].wishes;
  const slots = [...candidatesOf(board, lane).slots.values()];
  return new Map(
    slots.flatMap((each) => {
      const isOpen = bars?.includes(each.bar.id) !== false && !locked.has(each.slot.id);
      if (each.kind === "none" || !isOpen) return [];
      return [[each.slot.id, new Set(each.grips.map(printGrip))] as const];
    }),
  );
}

/**
 * The best way that keeps the grips and lets both play, else the best; each lowers the total. A
 * part that is to stay as it is stays so.
 */
function wayFor(
  board: Board,
  finding: Finding,
  { checker, open }: { readonly checker: Checker; readonly open: Open },
): WayOut | undefined {
  const lanes = finding.lanes.filter((lane) => !board.lanes[lane].wishes.leaveAsIs);
  const ways = waysOut(board, finding, { checker, lanes }).filter(
    ({ removes, causes, lane, edits }) =>
      totalOf(removes) > totalOf(causes) && isWished(edits, open.get(lane)),
  );
  const keeping = ways.find(({ edits }) =>
    edits.every(({ kind }) => kind !== "grip" && kind !== "lay-out"),
  );
  return keeping ?? ways[0];
}

function isWished(
  edits: readonly LaneEdit[],
  open: ReadonlyMap<SlotId, ReadonlySet<string>> = new Map(),
): boolean {
  return edits.every(
    (edit) =>
      edit.kind !== "grip" ||
      (edit.grip === undefined ? open.has(edit.slot) : open.get(edit.slot)?.has(edit.grip)),
  );
}
