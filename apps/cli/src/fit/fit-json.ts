/** A fit for programs, as JSON: what the text says, in numbers and ids. */
import type { Board } from "@halflap/board/board";
import { countBySeverity } from "@halflap/checker/count";
import type { Answer, FitResult, LanePart } from "@halflap/fitter/answer";
import { printGrip } from "@halflap/theory/grip";
import { placeOf } from "../findings-text.ts";
import { type FitReport, type Reason, slotsOf, unprovenOf } from "./fit-report.ts";

/** The report; bars by their numbers in the chart, costs in semitones of motion. */
export function printFitJson(report: FitReport): string {
  const { board, request, answers, present, skipped, take, reasons, mending, copy } = report;
  const numbers = new Map(slotsOf(board).map(({ bar, slot }) => [slot.id, bar.number]));
  return printed({
    kind: "answers",
    title: board.title,
    lanes: request.lanes,
    leaning: request.leaning,
    present,
    answers: answers.map((answer) => answerOf(board, answer)),
    skipped: skipped.map(({ slot, words }) => ({ bar: numbers.get(slot), slot, words })),
    take,
    why: reasons.map(reasonOf),
    whole: mending,
    copy,
  });
}

/** The wishes that can't hold together, and where that shows. */
export function printImpossibleJson(
  board: Board,
  { kind, lane, wishes, slot, words }: Extract<FitResult, { readonly kind: "impossible" }>,
): string {
  const found = slotsOf(board).find((each) => each.slot.id === slot);
  const where = { bar: found?.bar.number, slot, chord: found?.slot.text };
  return printed({ kind, title: board.title, lane, wishes, ...where, words });
}

function answerOf(board: Board, answer: Answer) {
  const { id, costs, bound, findings, hardest, distance, parts } = answer;
  const bars = board.sections.flatMap((section) => section.bars);
  return {
    id,
    costs,
    bound,
    isProven: unprovenOf(answer) === 0,
    distance,
    hardest: { ...hardest, bar: bars.find((bar) => bar.id === hardest.bar)?.number },
    count: countBySeverity(findings),
    findings: findings.map((finding) => ({ place: placeOf(board, finding), ...finding })),
    parts: parts.map((part) => partOf(board, part)),
  };
}

function partOf(board: Board, { lane, capo, motion, edits, grips }: LanePart) {
  const held = slotsOf(board).flatMap(({ bar, slot }) => {
    const grip = grips.get(slot.id);
    if (grip === undefined) return [];
    return [{ bar: bar.number, slot: slot.id, chord: slot.text, grip: printGrip(grip) }];
  });
  return { lane, capo, motion, grips: held, edits };
}

function reasonOf({ bar, slot, lane, held, next }: Reason) {
  return {
    bar: bar.number,
    slot: slot.id,
    chord: slot.text,
    lane,
    grip: held && printGrip(held),
    next: next.map(({ grip, more, causes, words }) => {
      return { grip: printGrip(grip), more, causes, words };
    }),
  };
}

function printed(value: unknown): string {
  return `${JSON.stringify(value, undefined, 2)}\n`;
}
