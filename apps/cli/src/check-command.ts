/** `halflap check`: a JSON copy or a chart text in, findings out. */
import type { Readable } from "node:stream";
import { parseChartText } from "@halflap/board/chart-text";
import { type BoardCopy, decodeCopy, fillDocuments } from "@halflap/board/copy";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { check } from "@halflap/checker/check";
import { isBlocked } from "@halflap/checker/count";
import { printFindings, printFindingsJson } from "./findings-text.ts";
import { named, readInput } from "./input.ts";
import { done, type Outcome, refused } from "./outcome.ts";

/** Checks one file; the exit status is 1 while an unsilenced stop or fix stands. */
export async function runCheck(file: string, json: boolean, standard: Readable): Promise<Outcome> {
  const input = await readInput(file, standard);
  if (!input.ok) return refused(input.error);
  const text = input.value;
  if (text.trim() === "") return refused(`${named(file)} is empty.`);
  return /^\s*[{[]/.test(text) ? checkCopy(file, text, json) : checkChart(file, text, json);
}

function checkCopy(file: string, text: string, json: boolean): Outcome {
  const value = parsed(text);
  if (!value.ok) return refused(`${named(file)} is no whole JSON: ${value.error}`);
  const copy = decodeCopy(value.value);
  if (!copy.ok) {
    const { path, words } = copy.error;
    return refused(`${named(file)} is no copy of a board: ${path === "" ? "it" : path} ${words}.`);
  }
  return checkBoard(copy.value, json);
}

function checkBoard(copy: BoardCopy, json: boolean): Outcome {
  const documents = emptyDocuments();
  fillDocuments(documents, copy);
  const board = makeReader(documents)();
  const findings = check(board);
  const print = json ? printFindingsJson : printFindings;
  return done(print(board, findings), isBlocked(findings) ? 1 : 0);
}

/** A chart text holds no grips, so all that can be wrong with it is the text. */
function checkChart(file: string, text: string, json: boolean): Outcome {
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
