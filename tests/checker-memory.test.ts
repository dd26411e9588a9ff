/**
 * A checker that remembers what it found says after every edit what one that starts afresh says:
 * random edits of every kind, from the demo and from boards of many bars.
 */

import { laneIds } from "@halflap/board/board";
import { draftCopy, parseChartText } from "@halflap/board/chart-text";
import { type BoardCopy, fillDocuments } from "@halflap/board/copy";
import { demoDraft, demoSolution } from "@halflap/board/demo";
import { emptyDocuments, laneDocument } from "@halflap/board/documents";
import { setChord } from "@halflap/board/edits/chart";
import { applyLaneEdits } from "@halflap/board/edits/lane-edits";
import { makeReader } from "@halflap/board/read";
import { check, makeChecker } from "@halflap/checker/check";
import type { Finding } from "@halflap/checker/finding";
import { makeTimeline, timelineOf } from "@halflap/timeline/passages";
import { describe, expect, test } from "vitest";
import { fullBoard } from "./support/full-board.ts";
import { randomEdit } from "./support/random-edits.ts";
import { seeded } from "./support/seeded.ts";

const seeds = 12;
const edits = 30;

const starts: readonly (readonly [string, () => BoardCopy])[] = [
  ["the draft", demoDraft],
  ["the solution", demoSolution],
  ["12 full bars", () => fullBoard(12)],
];

/** Reads the board after each of some random edits, and hands it on with what was done. */
function edited(start: BoardCopy, seed: number, onBoard: OnBoard, count: number = edits): void {
  const chance = seeded(seed);
  const docs = emptyDocuments();
  fillDocuments(docs, start);
  const read = makeReader(docs);
  let made = 0;
  const makeId = () => {
    made += 1;
    return `n${made}`;
  };
  onBoard(read(), `seed ${seed}, before the first edit`);
  for (let edit = 1; edit <= count; edit += 1) {
    randomEdit({ docs, board: read(), chance, makeId });
    onBoard(read(), `seed ${seed}, edit ${edit}`);
  }
}

type OnBoard = (board: ReturnType<ReturnType<typeof makeReader>>, where: string) => void;

describe("after every edit the memory says what a fresh check says", () => {
  test.each(starts)("from %s", (_, start) => {
    for (let seed = 1; seed <= seeds; seed += 1) {
      const checker = makeChecker();
      edited(start(), seed, (board, where) => {
        expect(checker(board), where).toEqual(check(board));
      });
    }
  });

  test("and the timeline kept is the timeline made afresh", () => {
    for (let seed = 1; seed <= seeds; seed += 1) {
      const timeline = makeTimeline();
      edited(demoSolution(), seed, (board, where) => {
        expect(timeline(board), where).toEqual(timelineOf(board));
      });
    }
  });

  test("a finding that says the same is the same object as before", () => {
    const checker = makeChecker();
    let last: ReadonlyMap<string, Finding> = new Map();
    let kept = 0;
    edited(demoDraft(), 7, (board) => {
      const findings = checker(board);
      for (const finding of findings) {
        const before = last.get(finding.id);
        if (before === undefined) continue;
        expect(finding === before).toBe(JSON.stringify(finding) === JSON.stringify(before));
        if (finding === before) kept += 1;
      }
      last = new Map(findings.map((finding) => [finding.id, finding]));
    });
    expect(kept).toBeGreaterThan(100);
  });
});

test("a chord that was looked for all the way round the form is looked for again", () => {
  const verse = "Verse\n| G7 | D7 . D7 . |";
  const tag = "Tag\n| D7 | D7 | D7 |";
  const chart = `C, 120\n\n${verse}\n\n${tag}\n\nForm: Verse, Tag, Verse, Tag\n`;
  const { draft } = parseChartText(chart);
  if (draft === undefined) throw new Error("the chart can't be read");
  let made = 0;
  const makeId = () => `id${++made}`;
  const docs = emptyDocuments();
  fillDocuments(docs, draftCopy(draft, makeId));
  const read = makeReader(docs);
  const slots = read().sections.flatMap(({ bars }) => bars.flatMap(({ slots }) => slots));
  // Root, fifth, root, third: the seventh is missing, the graver where D7 goes on to G.
  const grips = slots.map(({ id }) => ({ kind: "grip", slot: id, grip: "x-x-0-2-3-2" }) as const);
  for (const lane of laneIds) applyLaneEdits(docs[laneDocument(lane)], grips);
  const checker = makeChecker();
  expect(checker(read())).toEqual(check(read()));
  const last = read().sections[1]?.bars[2]?.slots[0];
  if (last === undefined) throw new Error("the tag has three bars");
  setChord(docs.board, { slot: last.id, chord: "E7" });
  expect(checker(read())).toEqual(check(read()));
});

test("undoing an edit on a board of its own brings the first findings back", () => {
  const checker = makeChecker();
  const docs = emptyDocuments();
  fillDocuments(docs, demoDraft());
  const first = makeReader(docs)();
  const before = checker(first);
  const other = emptyDocuments();
  fillDocuments(other, demoSolution());
  checker(makeReader(other)());
  expect(checker(first)).toEqual(before);
});
