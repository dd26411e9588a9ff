/** A fit for people: each answer with its grips by bar, what it costs and what it leaves. */
import type { Board } from "@halflap/board/board";
import { countBySeverity } from "@halflap/checker/count";
import type { Finding } from "@halflap/checker/finding";
import type { Answer, Costs, LanePart } from "@halflap/fitter/answer";
import { leanings } from "@halflap/fitter/leanings";
import type { Mending } from "@halflap/fitter/mended";
import { pretty } from "@halflap/theory/display";
import { printGrip } from "@halflap/theory/grip";
import { placeOf, printCount } from "../findings-text.ts";
import { type FitReport, type Reason, unprovenOf } from "./fit-report.ts";

/** The report as a text to read. */
export function printFit(report: FitReport): string {
  const { board, answers, take, copy } = report;
  const shared = sharedBy(answers);
  const blocks = [
    ...(board.title === "" ? [] : [[board.title]]),
    heading(report),
    ...answers.map((answer, index) => answerLines(board, answer, index + 1, shared)),
    shared.length === 0 ? [] : ["Every answer leaves:", ...findingLines(board, shared, "  ")],
    skippedLines(report),
    ...report.reasons.map(reasonLines),
    ...(report.mending === undefined ? [] : [mendingLines(report.mending, take)]),
    copy === undefined ? [] : [`${copy} holds the board with ${takenWords(report)} in it.`],
  ];
  const filled = blocks.filter((lines) => lines.length > 0);
  return `${filled.map((lines) => lines.join("\n")).join("\n\n")}\n`;
}

function heading({ request, answers, present }: FitReport): readonly string[] {
  const { lanes, leaning } = request;
  const whose = lanes.length === 1 ? `The ${lanes[0]} part` : "Both parts";
  const name = leaning === "plain" ? "" : `, ${leaning}`;
  const fewer = answers.length < request.answers;
  return [
    `${whose}${name}: ${lowerFirst(leanings[leaning].words)}`,
    "Costs are semitones of motion through the whole form as it is played; less is better.",
    present === undefined
      ? "What the board costs as it is can't be said: a slot has no grip."
      : `The board as it is costs ${costWords(present)}`,
    ...(fewer ? [`No more than ${counted(answers.length, "answer")} that differ enough.`] : []),
  ];
}

function answerLines(
  board: Board,
  answer: Answer,
  number: number,
  shared: readonly Finding[],
): readonly string[] {
  const { costs, findings, hardest, parts } = answer;
  const own = findings.filter((finding) => isBlocking(finding) && !isAmong(finding, shared));
  const motion = parts.map((part) => `${part.lane} ${rounded(part.motion)}`).join(", ");
  return [
    `Answer ${number} costs ${costWords(costs)}`,
    `  proof     ${proofWords(answer, number)}`,
    `  hardest   ${hardest.words} It costs ${rounded(hardest.cost)}.`,
    `  motion    ${motion}`,
    ...parts.flatMap((part) => capoLines(board, part)),
    `  differs   ${differsWords(answer, number)}`,
    `  findings  ${printCount(countBySeverity(findings))}`,
    ...findingLines(board, own, "            "),
    ...gripLines(board, parts),
  ];
}

/** Stops and fixes that stand in each of several answers: nothing in them can cure those. */
function sharedBy(answers: readonly Answer[]): readonly Finding[] {
  const [first, ...others] = answers;
  if (first === undefined || others.length === 0) return [];
  return first.findings.filter(
    (finding) => isBlocking(finding) && others.every((other) => isAmong(finding, other.findings)),
  );
}

function isBlocking({ severity }: Finding): boolean {
  return severity === "stop" || severity === "fix";
}

function isAmong({ id, severity, words }: Finding, findings: readonly Finding[]): boolean {
  return findings.some((it) => it.id === id && it.severity === severity && it.words === words);
}

function findingLines(
  board: Board,
  findings: readonly Finding[],
  indent: string,
): readonly string[] {
  return findings.map((finding) => {
    const { severity, rule, words } = finding;
    return `${indent}${severity.padEnd(4)}  ${rule}  ${placeOf(board, finding)}: ${words}`;
  });
}

/** From where the frets are counted; a lane without a capo needs no word, unless it had one. */
function capoLines(board: Board, { lane, capo }: LanePart): readonly string[] {
  const present = board.lanes[lane].setup.capo;
  if (capo === undefined && present === 0) return [];
  const fret = capo ?? present;
  return [`  capo      ${lane} ${fret === 0 ? "off" : `on fret ${fret}`}`];
}

function costWords({ total, causes }: Costs): string {
  if (causes.length === 0) return `${rounded(total)}.`;
  const list = causes.map(({ cause, cost }) => `${cause} ${rounded(cost)}`);
  return `${rounded(total)}: ${list.join(", ")}.`;
}

function proofWords(answer: Answer, number: number): string {
  const open = unprovenOf(answer);
  if (open > 0) return `at most ${rounded(open)} less is possible`;
  return number === 1 ? "nothing costs less" : "nothing as different costs less, as far as proven";
}

function differsWords({ distance }: Answer, number: number): string {
  const share = `${Math.round(distance * 100)} % of what is played has another grip`;
  return number === 1 ? `${share} than now` : `${share} than the answer before it most like it`;
}

/** A line a slot, with the grips of the parts beside each other; a star is another than now. */
function gripLines(board: Board, parts: readonly LanePart[]): readonly string[] {
  const columns = parts.map(({ lane, grips, edits }) => {
    const changed = new Set(edits.flatMap((edit) => (edit.kind === "grip" ? [edit.slot] : [])));
    const texts = [...grips].map(([slot, grip]) => {
      return [slot, `${printGrip(grip)}${changed.has(slot) ? " *" : ""}`] as const;
    });
    return { lane, texts: new Map(texts) };
  });
  const widths = columns.map(({ texts }) => widest([...texts.values()]));
  const rowOf = (bar: string, chord: string, cells: readonly string[]) => {
    const padded = cells.map((cell, index) => cell.padEnd(widths[index] ?? 0));
    return `  ${bar.padStart(3)}  ${chord.padEnd(chordWidth)}  ${padded.join("  ")}`.trimEnd();
  };
  const slots = board.sections.flatMap(({ bars }) => bars.flatMap((bar) => bar.slots));
  const chordWidth = widest(slots.map(({ text }) => pretty(text)));
  const heads = columns.map(({ lane }) => lane);
  const lines = board.sections.flatMap(({ name, bars }) => {
    const rows = bars.flatMap(({ number, slots: own }) =>
      own
        .filter(({ id }) => columns.some(({ texts }) => texts.has(id)))
        .map(({ id, text }) => {
          const cells = columns.map(({ texts }) => texts.get(id) ?? "");
          return rowOf(String(number), pretty(text), cells);
        }),
    );
    return rows.length === 0 || name === "" ? rows : [`  ${name}`, ...rows];
  });
  return [`${rowOf("bar", "chord", heads)}   (* = another grip than now)`, ...lines];
}

function skippedLines({ skipped }: FitReport): readonly string[] {
  if (skipped.length === 0) return [];
  // What is so for both parts is said once.
  const reasons = new Set(skipped.map(({ words }) => `  ${words}`));
  return ["Left alone, or not looked at whole:", ...reasons];
}

function reasonLines({ lane, bar, slot, held, next }: Reason): readonly string[] {
  const lines = next.length === 0 ? ["No other grip may stand here."] : next.map((it) => it.words);
  const where = `${pretty(slot.text)} in bar ${bar.number}, ${lane} part`;
  const instead = held === undefined ? "Instead" : `Instead of ${printGrip(held)}`;
  return [`${instead} at ${where}:`, ...lines.map((line) => `  ${line}`)];
}

function mendingLines({ changes, left }: Mending, take: number): readonly string[] {
  const rest = left === 0 ? "No stop and no fix is left." : `Stops and fixes left: ${left}.`;
  if (changes.length === 0)
    return [`Beside the grips of answer ${take} nothing is changed. ${rest}`];
  return [
    `Beside the grips of answer ${take}:`,
    ...changes.map(({ lane, words }) => `  ${lane}  ${words}`),
    rest,
  ];
}

function takenWords({ take, mending }: FitReport): string {
  const count = mending?.changes.length ?? 0;
  return count === 0 ? `answer ${take}` : `answer ${take} and ${counted(count, "other change")}`;
}

function widest(texts: readonly string[]): number {
  return Math.max(5, ...texts.map(({ length }) => length));
}

function rounded(semitones: number): string {
  return String(Math.round(semitones * 100) / 100);
}

function counted(n: number, what: string): string {
  return `${n} ${what}${n === 1 ? "" : "s"}`;
}

function lowerFirst(words: string): string {
  return words.charAt(0).toLowerCase() + words.slice(1);
}
