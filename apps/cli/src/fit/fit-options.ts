/** What `halflap fit` is asked, read from the words that were typed. */
import { type LaneId, laneIds } from "@halflap/board/board";
import { answersMax, type LeaningName, leaningNames } from "@halflap/fitter/answer";
import type { Reading } from "@halflap/theory/chord";

/** Bars from one number to another, both included, as the chart counts them. */
export type BarSpan = { readonly from: number; readonly to: number };

/** A bar by its number, and a slot in it from 1; undefined = all of the bar. */
export type BarPlace = { readonly bar: number; readonly slot: number | undefined };

export type FitOptions = {
  readonly file: string;
  readonly json: boolean;
  readonly lanes: readonly LaneId[];
  readonly leaning: LeaningName;
  readonly answers: number;
  /** Bars that may change; undefined = all. */
  readonly bars: readonly BarSpan[] | undefined;
  /** Which answer is copied and asked about, from 1. */
  readonly take: number;
  /** With what else would have to change for no stop and no fix to be left. */
  readonly whole: boolean;
  readonly why: BarPlace | undefined;
  /** Where a JSON copy with the answer in it is written. */
  readonly copy: string | undefined;
};

/** The options as they were typed. */
export type FitWords = {
  readonly json: boolean;
  readonly whole: boolean;
  readonly lane: string | undefined;
  readonly leaning: string | undefined;
  readonly answers: string | undefined;
  readonly bars: string | undefined;
  readonly take: string | undefined;
  readonly why: string | undefined;
  readonly copy: string | undefined;
};

/** As many as the page offers first. */
const answersUsual = "3";

/** The options, or a sentence that says which word can't be used and what is meant there. */
export function readFitOptions(
  file: string | undefined,
  words: FitWords,
): Reading<FitOptions, string> {
  if (file === undefined) return bad("fit needs a file, or - for the standard input.");
  const { json, whole, lane = "both", leaning = "plain", answers = answersUsual } = words;
  const lanes = lanesNamed(lane);
  if (lanes === undefined) return bad(`--lane is upper, lower or both, not "${lane}".`);
  const leaningName = leaningNamed(leaning);
  if (leaningName === undefined) {
    const names = leaningNames.map((name) => `"${name}"`).join(", ");
    return bad(`--leaning is one of ${names}, not "${leaning}".`);
  }
  const count = numberIn(answers, answersMax);
  if (count === undefined) return bad(`--answers is 1 to ${answersMax}, not "${answers}".`);
  const bars = words.bars === undefined ? undefined : spansIn(words.bars);
  if (bars?.ok === false) return bad(bars.error);
  const take = numberIn(words.take ?? "1", count);
  if (take === undefined) {
    const most = count === 1 ? "1" : `1 to ${count}`;
    return bad(`--take is the number of an answer, ${most} here, not "${words.take}".`);
  }
  const why = words.why === undefined ? undefined : placeIn(words.why);
  if (why?.ok === false) return bad(why.error);
  const { copy } = words;
  if (copy === "" || copy === "-")
    return bad("--copy is the name of a file that is not there yet.");
  const asked = { lanes, leaning: leaningName, answers: count, bars: bars?.value };
  return { ok: true, value: { file, json, ...asked, take, whole, why: why?.value, copy } };
}

function lanesNamed(text: string): readonly LaneId[] | undefined {
  const lanes = laneIds.filter((lane) => text === "both" || text === lane);
  return lanes.length === 0 ? undefined : lanes;
}

/** Hyphens save the quotes. */
function leaningNamed(text: string): LeaningName | undefined {
  const name = text.trim().toLowerCase().replaceAll("-", " ");
  return leaningNames.find((known) => known === name);
}

/** A whole number from 1 to `most`. */
function numberIn(text: string, most: number): number | undefined {
  const number = /^\d{1,9}$/.test(text) ? Number(text) : 0;
  return number >= 1 && number <= most ? number : undefined;
}

function spansIn(text: string): Reading<readonly BarSpan[], string> {
  const spans: BarSpan[] = [];
  for (const part of text.split(",")) {
    const [from = "", to = from, ...more] = part.split("-").map((word) => word.trim());
    const [first, last] = [barNumber(from), barNumber(to)];
    if (first === undefined || last === undefined || more.length > 0) {
      return bad(`--bars is numbers of bars, such as 1-8,13; "${part}" is none.`);
    }
    if (last < first) return bad(`--bars has "${part}": from ${first} to ${last} is no bar.`);
    spans.push({ from: first, to: last });
  }
  return { ok: true, value: spans };
}

function placeIn(text: string): Reading<BarPlace, string> {
  const [bar = "", slot, ...more] = text.split(".");
  const number = barNumber(bar);
  const within = slot === undefined ? undefined : barNumber(slot);
  const isWhole = (slot === undefined) === (within === undefined) && more.length === 0;
  if (number === undefined || !isWhole) {
    return bad(
      `--why is a bar, and which chord in it if you like, such as 9 or 9.2, not "${text}".`,
    );
  }
  return { ok: true, value: { bar: number, slot: within } };
}

function barNumber(text: string): number | undefined {
  return numberIn(text, Number.MAX_SAFE_INTEGER);
}

function bad(words: string): Reading<never, string> {
  return { ok: false, error: words };
}
