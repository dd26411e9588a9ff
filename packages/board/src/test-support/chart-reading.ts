/** What a chart text reads to, for tests: its draft, or what is told of it. */
import { expect } from "vitest";
import type { ChartDraft } from "../chart-draft.ts";
import { parseChartText } from "../chart-text.ts";

/** The chart of a text of which nothing is told. */
export function draftOf(text: string): ChartDraft | undefined {
  const { draft, problems } = parseChartText(text);
  expect(problems).toEqual([]);
  return draft;
}

/** The names of its sections. */
export function namesOf(text: string): readonly string[] | undefined {
  return draftOf(text)?.sections.map(({ name }) => name);
}

/** Where something is told, "line:column" with what was read there. */
export function places(text: string): readonly string[] {
  return parseChartText(text).problems.map(({ line, column, read }) => `${line}:${column} ${read}`);
}

/** What is told. */
export function words(text: string): readonly string[] {
  return parseChartText(text).problems.map((problem) => problem.words);
}
