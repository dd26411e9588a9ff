/**
 * Checking a board from nothing and after an edit, ten times as many bars, and the ways out of a
 * finding: beside copying the board by JSON, and beside checking from nothing again and again.
 */
import type { Board } from "@halflap/board/board";
import { type BoardCopy, fillDocuments } from "@halflap/board/copy";
import { emptyDocuments } from "@halflap/board/documents";
import { editedBoard } from "@halflap/board/edited-board";
import { makeReader } from "@halflap/board/read";
import { check, makeChecker } from "@halflap/checker/check";
import type { Finding } from "@halflap/checker/finding";
import { waysOut } from "@halflap/checker/ways-out";
import { printGrip } from "@halflap/theory/grip";
import { fullBoard } from "../support/full-board.ts";
import { type Figure, percentile, timed } from "./figure.ts";

const denseBars = 128;
const denseRuns = 30;
/** The engine takes its time to learn which code is worth its best; edits of some minutes. */
const warmUps = 30;

/** Checks of a usual board, of a dense one, after edits, and of ten times as much. */
export function checking(): readonly Figure[] {
  return [...fromNothing(), ...afterEdits(), tenTimes(), outOfOne()];
}

/** A fresh Board each time, so no cache can help. */
function fromNothing(): readonly Figure[] {
  const copy = fullBoard(denseBars, "dense");
  const first = boardOf(copy);
  const [cold = Number.NaN] = timed(1, () => void check(first), 0);
  const checks = checksOf(copy, denseRuns);
  const sample = boardOf(copy);
  const lanes = [sample.lanes.upper, sample.lanes.lower].map(({ grips, fills }) => [
    ...grips,
    ...fills,
  ]);
  const copies = timed(denseRuns, () => void JSON.parse(JSON.stringify([sample.sections, lanes])));
  const whole = `check of ${denseBars} dense bars, sixteenths in both lanes and fills`;
  const copying = (share: number) => {
    return { name: "copying the board by JSON", value: percentile(copies, share) };
  };
  return [
    { name: `${whole}, p50`, value: percentile(checks, 0.5), budget: 50, baseline: copying(0.5) },
    { name: `${whole}, p95`, value: percentile(checks, 0.95), budget: 50, baseline: copying(0.95) },
    { name: `${whole}, the first`, value: cold, budget: undefined, baseline: copying(0.5) },
  ].map((figure) => ({ unit: "ms", ...figure }));
}

/** A grip here and a grip there, each checked by what remembers the board before. */
function afterEdits(): readonly Figure[] {
  const board = boardOf(fullBoard(denseBars, "dense"));
  const edited = editsOf(board);
  const checker = makeChecker();
  checker(board);
  // There and back again, so that each board differs from the one before in one slot.
  const next = around(edited.flatMap((each) => [each, board]));
  const edits = timed(denseRuns * 4, () => void checker(next()));
  const whole = timed(denseRuns, () => void check(next()));
  return [0.5, 0.95].map((share) => ({
    name: `check after one grip, ${denseBars} dense bars, p${share * 100}`,
    unit: "ms",
    value: percentile(edits, share),
    budget: 4,
    baseline: { name: "checking from nothing", value: percentile(whole, share) },
  }));
}

function tenTimes(): Figure {
  const few = checksOf(fullBoard(40, "dense"), denseRuns);
  const many = checksOf(fullBoard(400, "dense"), denseRuns);
  return {
    name: "check of 400 dense bars from nothing, p50",
    unit: "ms",
    value: percentile(many, 0.5),
    budget: undefined,
    baseline: { name: "40 bars ten times", value: percentile(few, 0.5) * 10 },
  };
}

/** One slot where both lanes hold the same grip, asked for again and again. */
function outOfOne(): Figure {
  const boards = editsOf(boardOf(fullBoard(denseBars, "dense")));
  const checker = makeChecker();
  const asked = boards.map((board) => ({ board, finding: worstOf(board) }));
  const next = around(asked);
  const ways = timed(denseRuns, () => {
    const { board, finding } = next();
    const found = waysOut(board, finding, { checker });
    if (found.length === 0) throw new Error(`no way out of ${finding.id}`);
  });
  const whole = timed(denseRuns, () => void check(next().board));
  return {
    name: `ways out of one finding, ${denseBars} dense bars, p50`,
    unit: "ms",
    value: percentile(ways, 0.5),
    budget: 100,
    baseline: {
      name: "checking the board from nothing for each of 40 changes",
      value: percentile(whole, 0.5) * 40,
    },
  };
}

/** Boards in which the upper lane holds the lower lane's grip in one slot, each in another. */
function editsOf(board: Board): readonly Board[] {
  return [...board.lanes.lower.grips]
    .filter((_, index) => index % 16 === 5)
    .map(([slot, grip]) =>
      editedBoard(board, "upper", [{ kind: "grip", slot, grip: printGrip(grip) }]),
    );
}

function worstOf(board: Board): Finding {
  const finding = check(board).find(({ rule }) => rule === "R03");
  if (finding === undefined) throw new Error("equal grips are found by R03");
  return finding;
}

function checksOf(copy: BoardCopy, times: number): readonly number[] {
  const read = () => makeReader(documentsOf(copy))();
  const fresh = Array.from({ length: times + warmUps }, read);
  const boards = fresh.values();
  const next = () => {
    const board = boards.next().value;
    if (board === undefined) throw new Error("not enough boards");
    check(board);
  };
  return timed(times, next, warmUps);
}

function boardOf(copy: BoardCopy): Board {
  return makeReader(documentsOf(copy))();
}

function documentsOf(copy: BoardCopy) {
  const documents = emptyDocuments();
  fillDocuments(documents, copy);
  return documents;
}

function around<T>(things: readonly T[]): () => T {
  let at = 0;
  return () => {
    const thing = things[at++ % things.length];
    if (thing === undefined) throw new Error("nothing to go around");
    return thing;
  };
}
