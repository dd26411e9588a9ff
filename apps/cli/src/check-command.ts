/** `halflap check`: a JSON copy or a chart text in, findings out. */
import type { Readable } from "node:stream";
import { parseChartText } from "@halflap/board/chart-text";
import { type BoardCopy, decodeCopy, fillDocuments } from "@halflap/board/copy";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { makeChecker } from "@halflap/checker/check";
import { isBlocked } from "@halflap/checker/count";
import type { Finding } from "@halflap/checker/finding";
import { waysOut } from "@halflap/checker/ways-out";
import { printFindings, printFindingsJson } from "./findings-text.ts";
import { named, readInput } from "./input.ts";
import { done, type Outcome, refused } from "./outcome.ts";

/** `ways` = with ways out of what is flagged. */
export type CheckOptions = {
  readonly file: string;
  readonly json: boolean;
  readonly ways: boolean;
};

/** Checks one file; the exit status is 1 while an unsilenced stop or fix stands. */
export async function runCheck(options: CheckOptions, standard: Readable): Promise<Outcome> {
  const { file } = options;
  const input = await readInput(file, standard);
  if (!input.ok) return refused(input.error);
  const text = input.value;
  if (text.trim() === "") return refused(`${named(file)} is empty.`);
  return /^\s*[{[]/.test(text) ? checkCopy(options, text) : checkChart(options, text);
}

function checkCopy(options: CheckOptions, text: string): Outcome {
  const { file } = options;
  const value = parsed(text);
  if (!value.ok) return refused(`${named(file)} is no whole JSON: ${value.error}`);
  const copy = decodeCopy(value.value);
  if (!copy.ok) {
    const { path, words } = copy.error;
    return refused(`${named(file)} is no copy of a board: ${path === "" ? "it" : path} ${words}.`);
  }
  return checkBoard(copy.value, options);
}

function checkBoard(copy: BoardCopy, { json, ways }: CheckOptions): Outcome {
  const documents = emptyDocuments();
  fillDocuments(documents, copy);
  const board = makeReader(documents)();
  const checker = makeChecker();
  const findings = checker(board);
  const waysFor = (finding: Finding) =>
    ways && isTrouble(finding) ? waysOut(board, finding, { checker }) : [];
  const print = json ? printFindingsJson : printFindings;
  return done(print(board, findings, waysFor), isBlocked(findings) ? 1 : 0);
}

/** What is worth a way out: what is good to know needs none, what is silenced wants none. */
function isTrouble({ severity, silenced }: Finding): boolean {
  return severity !== "note" && silenced === undefined;
}

/** A chart text holds no grips, so all that can be wrong with it is the text. */
function checkChart({ file, json }: CheckOptions, text: string): Outcome {
  const { draft, problems } = parseChartText(text);
  if (draft === undefined || problems.length > 0) {
    return refused(
      ...problems.map(({ line, column, words }) => `${named(file)}:${line}:${column}: ${words}`),
    );
  }
  if (json) return done(`${JSON.stringify({ title: draft.title, findings: [] }, undefined, 2)}\n`);
  const bars = draft.sections.reduce((sum, section) => sum + section.bars.length, 0);
  const count = `${bars} ${bars === 1 ? "bar" : "bars"}`;
  return done(
    `A chart of ${count} that reads well. It holds no grips, so there is nothing to check yet.\n`,
  );
}

function parsed(text: string) {
  try {
    const value: unknown = JSON.parse(text);
    return { ok: true, value } as const;
  } catch (fault) {
    const message = fault instanceof Error ? fault.message : String(fault);
    return { ok: false, error: `${message}${placeOf(message, text)}.` } as const;
  }
}

/** Line and column, where the message knows the position only. */
function placeOf(message: string, text: string): string {
  const position = /at position (\d+)$/.exec(message)?.[1];
  if (position === undefined) return "";
  const lines = text.slice(0, Number(position)).split("\n");
  return ` (line ${lines.length} column ${(lines.at(-1) ?? "").length + 1})`;
}
