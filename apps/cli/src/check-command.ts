/** `halflap check`: a JSON copy or a chart text in, findings out. */
import type { Readable } from "node:stream";
import { parseChartText } from "@halflap/board/chart-text";
import { type BoardCopy, fillDocuments } from "@halflap/board/copy";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { makeChecker } from "@halflap/checker/check";
import { isBlocked } from "@halflap/checker/count";
import type { Finding } from "@halflap/checker/finding";
import { waysOut } from "@halflap/checker/ways-out";
import { copyIn, isJson, readText } from "./board-input.ts";
import { printFindings, printFindingsJson } from "./findings-text.ts";
import { named } from "./input.ts";
import { done, type Outcome, refused } from "./outcome.ts";

/** `ways` = with ways out of what is flagged. */
export type CheckOptions = {
  readonly file: string;
  readonly json: boolean;
  readonly ways: boolean;
};

/** Checks one file; the exit status is 1 while an unsilenced stop or fix stands. */
export async function runCheck(options: CheckOptions, standard: Readable): Promise<Outcome> {
  const text = await readText(options.file, standard);
  if (!text.ok) return refused(text.error);
  if (!isJson(text.value)) return checkChart(options, text.value);
  const copy = copyIn(options.file, text.value);
  return copy.ok ? checkBoard(copy.value, options) : refused(copy.error);
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
