/** `halflap fit`: a JSON copy in, the best parts under its wishes out. */
import { existsSync } from "node:fs";
import type { Readable } from "node:stream";
import type { BarId, Board } from "@halflap/board/board";
import { type BoardCopy, fillDocuments } from "@halflap/board/copy";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { isBlocked } from "@halflap/checker/count";
import type { Answer, FitRequest } from "@halflap/fitter/answer";
import { fit } from "@halflap/fitter/fit";
import { type Mending, mended } from "@halflap/fitter/mended";
import type { MinPlus } from "@halflap/fitter/min-plus";
import { whyThis } from "@halflap/fitter/why";
import type { Reading } from "@halflap/theory/chord";
import { copyIn, isJson, readText } from "../board-input.ts";
import { named } from "../input.ts";
import { done, type Outcome, refused } from "../outcome.ts";
import { writeFitted } from "./fit-copy.ts";
import { printFitJson, printImpossibleJson } from "./fit-json.ts";
import type { BarPlace, FitOptions } from "./fit-options.ts";
import { bestMinPlus } from "./fit-product.ts";
import { type PlacedSlot, type Reason, slotsOf } from "./fit-report.ts";
import { printFit } from "./fit-text.ts";

/** So many other grips are told for each slot that is asked about. */
const nextMost = 3;

/**
 * Fits one file; the exit status is 1 while a stop or fix stands in the answer that is taken, with
 * what mends it where that was asked for.
 */
export async function runFit(
  options: FitOptions,
  standard: Readable,
  minPlus: MinPlus = bestMinPlus(),
): Promise<Outcome> {
  const { file } = options;
  const text = await readText(file, standard);
  if (!text.ok) return refused(text.error);
  if (!isJson(text.value)) {
    return refused(`${named(file)} is no JSON copy of a board, which is what fit needs.`);
  }
  const copy = copyIn(file, text.value);
  if (!copy.ok) return refused(copy.error);
  if (options.copy !== undefined && existsSync(options.copy)) {
    return refused(`${options.copy} is there already: --copy writes a new file.`);
  }
  return fitCopy(copy.value, options, minPlus);
}

function fitCopy(copy: BoardCopy, options: FitOptions, minPlus: MinPlus): Outcome {
  const documents = emptyDocuments();
  fillDocuments(documents, copy);
  const board = makeReader(documents)();
  const request = requestOn(board, options);
  if (!request.ok) return refused(request.error);
  const asked = askedSlots(board, options.why);
  if (!asked.ok) return refused(asked.error);
  const tools = { minPlus };
  const result = fit(board, request.value, tools);
  if (result.kind === "impossible") {
    const out = options.json ? printImpossibleJson(board, result) : "";
    return { ...refused(`${result.lane} lane: ${result.words}`), out };
  }
  const { answers, present, skipped } = result;
  if (answers.every(isEmpty)) {
    return refused("There is nothing to choose grips for.", ...skipped.map(({ words }) => words));
  }
  const { take } = options;
  const taken = answers[take - 1];
  if (taken === undefined) return refused(tooFew(take, answers.length));
  const reasons = asked.value.flatMap((place) =>
    taken.parts.map(({ lane, grips }): Reason => {
      const at = { lane, slot: place.slot.id, most: nextMost };
      const next = whyThis(board, request.value, taken, at, tools);
      return { ...place, lane, held: grips.get(place.slot.id), next };
    }),
  );
  const mending = options.whole ? mended(board, taken, request.value) : undefined;
  if (options.copy !== undefined) {
    const fault = writeFitted(options.copy, { documents, board, taken, mending });
    if (fault !== undefined) return refused(fault);
  }
  const found = { answers, present, skipped, take, reasons, mending, copy: options.copy };
  const print = options.json ? printFitJson : printFit;
  return done(print({ board, request: request.value, ...found }), exitOf(taken, mending));
}

function requestOn(board: Board, options: FitOptions): Reading<FitRequest, string> {
  const { leaning, answers } = options;
  const lanes = options.lanes.filter((lane) => !board.lanes[lane].wishes.leaveAsIs);
  if (lanes.length === 0) {
    const whose = options.lanes.length === 1 ? `The ${options.lanes[0]} part` : "Each part";
    return bad(`${whose} is wished to stay as it is, so nothing may change.`);
  }
  if (options.bars === undefined) {
    return { ok: true, value: { lanes, leaning, answers, bars: undefined } };
  }
  const all = board.sections.flatMap(({ bars }) => bars);
  const bars = new Set<BarId>();
  for (const { from, to } of options.bars) {
    const last = Math.max(0, ...all.map(({ number }) => number));
    if (to > last) return bad(noSuchBar("--bars", to, last));
    for (const { id, number } of all) if (number >= from && number <= to) bars.add(id);
  }
  return { ok: true, value: { lanes, leaning, answers, bars: [...bars] } };
}

function askedSlots(
  board: Board,
  why: BarPlace | undefined,
): Reading<readonly PlacedSlot[], string> {
  if (why === undefined) return { ok: true, value: [] };
  const all = slotsOf(board);
  const inBar = all.filter(({ bar }) => bar.number === why.bar);
  if (inBar.length === 0) {
    return bad(noSuchBar("--why", why.bar, Math.max(0, ...all.map(({ bar }) => bar.number))));
  }
  if (why.slot === undefined) return { ok: true, value: inBar };
  const found = inBar[why.slot - 1];
  if (found !== undefined) return { ok: true, value: [found] };
  const count = inBar.length === 1 ? "one chord" : `${inBar.length} chords`;
  return bad(`--why ${why.bar}.${why.slot}: bar ${why.bar} has ${count}.`);
}

function noSuchBar(option: string, bar: number, last: number): string {
  const bars = last === 0 ? "none" : last === 1 ? "one" : `1 to ${last}`;
  return `${option} has bar ${bar}, but the bars of this chart are ${bars}.`;
}

function isEmpty({ parts }: Answer): boolean {
  return parts.every(({ grips }) => grips.size === 0);
}

function tooFew(take: number, count: number): string {
  const found = count === 1 ? "is one answer" : `are ${count} answers`;
  return `--take ${take}: there ${found} that differ enough.`;
}

function exitOf({ findings }: Answer, mending: Mending | undefined): 0 | 1 {
  const isLeft = mending === undefined ? isBlocked(findings) : mending.left > 0;
  return isLeft ? 1 : 0;
}

function bad(words: string): Reading<never, string> {
  return { ok: false, error: words };
}
