/**
 * Rhythm, loudness and form in the demo tune, against figures worked out beforehand by another
 * program: the first draft strums all alike, the finished version interlocks throughout.
 */
import type { Board } from "@halflap/board/board";
import { type BoardCopy, fillDocuments } from "@halflap/board/copy";
import { demoDraft, demoSolution } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { check } from "@halflap/checker/check";
import type { RuleId } from "@halflap/checker/finding";
import { describe, expect, test } from "vitest";

const ours: readonly RuleId[] = ["R18", "R19", "R20", "R21", "R22", "R33", "R34", "R36"];

function boardOf(copy: BoardCopy): Board {
  const documents = emptyDocuments();
  fillDocuments(documents, copy);
  return makeReader(documents)();
}

/** Rule, severity, how many bars and what was measured, for each finding in a section. */
function foundIn(board: Board, name: string) {
  const section = board.sections.find((candidate) => candidate.name === name);
  const bars = new Set(section?.bars.map(({ id }) => id));
  return check(board)
    .filter((finding) => ours.includes(finding.rule) && finding.bars.some((bar) => bars.has(bar)))
    .map(({ rule, severity, bars, measured }) => [rule, severity, bars.length, measured]);
}

describe("the draft", () => {
  const draft = boardOf(demoDraft());

  test("R18 every stroke of the verse is struck by both; in its last bar one of them fills", () => {
    expect(foundIn(draft, "Verse")).toEqual([["R18", "fix", 7, 1]]);
  });

  test("R18 R21 all sixteenths of the chorus are struck by both", () => {
    expect(foundIn(draft, "Chorus")).toEqual([
      ["R18", "fix", 8, 1],
      ["R21", "fix", 8, 16],
    ]);
  });
});

describe("the finished version", () => {
  const finished = boardOf(demoSolution());

  test.each(["Verse", "Chorus"])(
    "R19 no stroke of the %s is struck by both, and it locks",
    (name) => {
      expect(foundIn(finished, name)).toEqual([["R19", "note", 8, 0]]);
    },
  );

  test.each(["Intro", "Tag"])("raises nothing about rhythm, loudness or form in the %s", (name) => {
    expect(foundIn(finished, name)).toEqual([]);
  });
});
