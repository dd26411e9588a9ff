/** Fits of a few bars: the way back to the top, a capo that moves, bars that stay, rests. */
import type { Board, LaneId } from "@halflap/board/board";
import type { LaneWishes } from "@halflap/board/wishes";
import { bars, type SmallBoard, smallBoard } from "@halflap/checker/test-support/small-board";
import { fret } from "@halflap/theory/units";
import { expect, test } from "vitest";
import type { Answer, FitRequest, FitResult } from "./answer.ts";
import { groundOf } from "./answers/fit-ground.ts";
import { weightsFor } from "./costs/leanings.ts";
import { fit } from "./fit.ts";
import { plainMinPlus } from "./solver/plain-min-plus.ts";

const lower: FitRequest = { lanes: ["lower"], leaning: "plain", answers: 1, bars: undefined };
const tools = { minPlus: plainMinPlus };

function wishing(board: Board, lane: LaneId, wishes: Partial<LaneWishes>): Board {
  const own = board.lanes[lane];
  const wished = { ...own, wishes: { ...own.wishes, ...wishes } };
  return { ...board, lanes: { ...board.lanes, [lane]: wished } };
}

type SmallNotes = readonly (readonly [beats: number, place: string])[];

function answerFor(board: Board, request: FitRequest = lower): Answer {
  const result = fit(board, request, tools);
  const [answer] = result.kind === "answers" ? result.answers : [];
  if (answer === undefined) throw new Error("there is an answer");
  return answer;
}

const turnaround: SmallBoard = {
  sections: bars(
    ["Dm7", "x-x-x-x-13-13", "x-x-3-5-3-x"],
    ["G7", "x-x-x-x-12-13", "x-x-3-4-3-x"],
    ["C", "x-x-x-x-13-12", "x-x-2-0-1-x"],
  ),
};

test("F21 the end leads back to the top only where no ending is agreed", () => {
  const links = (ending: string) => {
    const ground = groundOf({ ...smallBoard(turnaround), ending }, lower, weightsFor("plain"));
    if ("kind" in ground) throw new Error(ground.words);
    return ground.tune.links.map(({ from, to }) => `${from} ${to}`);
  };
  expect(links("on one")).toEqual(["s1 s2", "s2 s3"]);
  expect(links("")).toEqual(["s1 s2", "s2 s3", "s3 s1"]);
});

test("F29 a wished capo comes first, and a fill is counted anew from it", () => {
  const notes = [
    [0, "2:3"],
    [1, "2:1"],
  ] as const;
  const fills = { lower: [{ bar: 3, beat: 3, beats: 2, notes }] };
  const board = wishing(smallBoard({ ...turnaround, fills }), "lower", { capo: fret(1) });
  const [part] = answerFor(board).parts;
  expect(part?.capo).toBe(1);
  expect(part?.edits[0]).toEqual({ kind: "capo", capo: 1 });
  const figures = part?.edits.flatMap((edit) => (edit.kind === "fill" ? edit.fill.notes : []));
  expect(figures?.map((note) => note.fret)).toEqual([2, 0]);
});

test("F29 a fill note behind the capo goes to a free string, or it is said that none is", () => {
  const capoed = (notes: SmallNotes) => {
    const fills = { lower: [{ bar: 2, beat: 3, beats: 2, notes }] };
    const board = wishing(smallBoard({ ...turnaround, fills }), "lower", { capo: fret(3) });
    const result = fit(board, lower, tools);
    const [answer] = result.kind === "answers" ? result.answers : [];
    const edits = answer?.parts.flatMap((part) => part.edits) ?? [];
    const figures = edits.flatMap((edit) => (edit.kind === "fill" ? edit.fill.notes : []));
    const places = figures.map((note) => `${note.string}:${note.fret}`);
    return { places, skipped: result.kind === "answers" ? result.skipped : undefined };
  };
  const apart: SmallNotes = [
    [0, "1:0"],
    [1, "2:1"],
  ];
  expect(capoed(apart)).toEqual({ places: ["2:2", "3:2"], skipped: [] });
  const together: SmallNotes = [
    [0, "1:0"],
    [0, "2:6"],
  ];
  expect(capoed(together)).toEqual({ places: ["3:6", "2:3"], skipped: [] });
  const words = "G7 in bar 2: with the capo on fret 3 no string is free for the fill's E2.";
  expect(capoed([[0, "6:0"]])).toEqual({ places: [], skipped: [{ slot: "s2", words }] });
});

test("F29 bars that are not asked for stay, and only what changes is an edit", () => {
  const board = smallBoard(turnaround);
  const [, middle] = board.sections.flatMap((section) => section.bars);
  const answer = answerFor(board, { ...lower, bars: middle === undefined ? [] : [middle.id] });
  const [part] = answer.parts;
  expect([...(part?.grips.keys() ?? [])]).toEqual(["s2"]);
  for (const edit of part?.edits ?? []) {
    expect(edit.kind === "grip" && edit.slot).toBe("s2");
  }
});

test("a lane that rests has nothing to choose, and it is said why", () => {
  const board = smallBoard({ ...turnaround, layOuts: { lower: [2] } });
  const result = fit(board, lower, tools);
  if (result.kind !== "answers") throw new Error(result.words);
  expect(result.skipped.map(({ slot }) => slot)).toEqual(["s2"]);
  expect(result.skipped[0]?.words).toContain("rests");
});

test("wishes that can't hold together are named, and nothing is thrown", () => {
  const board = wishing(smallBoard(turnaround), "lower", {
    stringSets: [[3, 2, 1]],
    highestFret: fret(1),
    openStrings: false,
  });
  const result = fit(board, lower, tools);
  expect(result.kind).toBe("impossible");
});

test("W9 a wished capo that stays off where some bars may change is not blamed", () => {
  const board = wishing(smallBoard(turnaround), "lower", {
    capo: fret(1),
    highestFret: fret(1),
    openStrings: false,
  });
  const some = board.sections.flatMap((section) => section.bars.slice(2).map(({ id }) => id));
  const blamed = (result: FitResult) => (result.kind === "impossible" ? result.wishes : []);
  expect(blamed(fit(board, lower, tools))).toEqual(["highestFret", "capo"]);
  expect(blamed(fit(board, { ...lower, bars: some }, tools))).toEqual([
    "highestFret",
    "openStrings",
  ]);
});
