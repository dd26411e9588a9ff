/**
 * Moves of the fretting hand: the published form of the time a move takes, ways by the fret rule,
 * and the demo tune against figures worked out beforehand by another program.
 */
import { type Board, laneIds } from "@halflap/board/board";
import { type BoardCopy, fillDocuments } from "@halflap/board/copy";
import { demoDraft, demoSolution } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { check } from "@halflap/checker/check";
import type { RuleId } from "@halflap/checker/finding";
import { movesFrom } from "@halflap/checker/hand-moves";
import { moveSeconds, travelOf } from "@halflap/checker/hand-travel";
import { limitsOf } from "@halflap/checker/thresholds";
import { msOf, preparedBoard } from "@halflap/checker/tune";
import { fretPosition } from "@halflap/theory/hand";
import { defaultSetup } from "@halflap/theory/tuning";
import { millimetres } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";

const limits = limitsOf({ limits: new Map() });
const between = (one: number, other: number) =>
  millimetres(Math.abs(fretPosition(defaultSetup, one) - fretPosition(defaultSetup, other)));

/**
 * Fitts, J. Exp. Psychol. 47, 1954: the time of an aimed move is linear in the logarithm of its way
 * over the width of its goal; the form with 1 + D/W is MacKenzie's, HCI 7, 1992. Both from memory,
 * as is the rate that Fitts found, about 10 bits a second. The constants are ours.
 */
describe("the time of a move has the published form", () => {
  const seconds = (length: number) => moveSeconds(millimetres(length), limits);

  test("each further bit takes as long as the one before: W, 3 W, 7 W, 15 W", () => {
    const steps = [0, 15, 45, 105, 225].map(seconds);
    const each = steps.slice(1).map((step, index) => step - (steps[index] ?? 0));
    for (const step of each) expect(step).toBeCloseTo(each[0] ?? 0, 9);
    expect(1 / (each[0] ?? 0)).toBeCloseTo(10, 6);
  });

  test("only way over width counts: twice the way to a goal twice as wide takes as long", () => {
    const wide = { ...limits, moveTarget: limits.moveTarget * 2 };
    expect(moveSeconds(millimetres(200), wide)).toBeCloseTo(seconds(100), 9);
  });
});

/** Ways by p(n) = L(1 - 2^(-n/12)) on 648 mm; times by the formula, both calculated apart. */
test.each([
  [3, 13, 239.09, 0.4882],
  [1, 3, 66.73, 0.3246],
  [1, 5, 126.18, 0.4034],
  [8, 12, 84.21, 0.3526],
  [12, 16, 66.84, 0.3248],
])("from fret %i to %i the hand goes %f mm, which takes %f s", (one, other, length, time) => {
  expect(between(one, other)).toBeCloseTo(length, 2);
  expect(moveSeconds(between(one, other), limits)).toBeCloseTo(time, 3);
});

function boardOf(copy: BoardCopy): Board {
  const documents = emptyDocuments();
  fillDocuments(documents, copy);
  return makeReader(documents)();
}

/** The time there is over the time it takes, for every move of both hands. */
function sharesOf(board: Board): readonly number[] {
  const { passages, tune } = preparedBoard(board);
  return passages.flatMap(({ bars, following }) =>
    bars.flatMap((bar, index) => {
      const next = bars[index + 1];
      return laneIds.flatMap((lane) =>
        movesFrom(bar, next ? [next] : following, lane, tune.setups).flatMap((move) => {
          const length = travelOf(move.from, move.to, tune.setups[lane], limits);
          const time = msOf(move.end - move.start, tune) / 1000;
          return length === undefined ? [] : [time / moveSeconds(length, limits)];
        }),
      );
    }),
  );
}

/** Where a rule speaks in a section: severity, lanes, slots and what was measured. */
function foundIn(board: Board, name: string, rule: RuleId) {
  const section = board.sections.find((candidate) => candidate.name === name);
  const slots = section?.bars.flatMap((bar, index) =>
    bar.slots.map(({ id }, place): readonly [string, string] => [
      id,
      `${index + 1}${bar.slots.length > 1 ? "ab".charAt(place) : ""}`,
    ]),
  );
  const places = new Map(slots);
  return check(board)
    .filter((finding) => finding.rule === rule && places.has(finding.slots[0] ?? ""))
    .map(({ severity, lanes, slots, measured }) => [
      severity,
      lanes.join("+"),
      slots.map((slot) => places.get(slot)).join(" "),
      Math.round(measured * 100) / 100,
    ]);
}

describe("the demo's draft", () => {
  const draft = boardOf(demoDraft());

  test("R29 one tight change in the verse, and no time from its last fill to the chorus", () => {
    const [tight, late, ...more] = foundIn(draft, "Verse", "R29");
    expect(tight).toEqual(["look", "lower", "2b 3", 0.89]);
    expect(late?.slice(0, 3)).toEqual(["stop", "upper", "8"]);
    expect(more).toEqual([]);
  });

  test("R29 no time for two frets between sixteenths in the chorus, bar 4 to 5", () => {
    expect(foundIn(draft, "Chorus", "R29")).toEqual([["stop", "lower", "4 5", 0.44]]);
  });

  test("R15 the bottom notes A D G C go in unison through bars 6 to 8 of the verse", () => {
    expect(foundIn(draft, "Verse", "R15")).toEqual([["fix", "upper+lower", "6 7a 7b 8", 3]]);
  });

  test("R17 R31 R32 have nothing to say", () => {
    const found = check(draft).filter(({ rule }) => ["R17", "R31", "R32"].includes(rule));
    expect(found).toEqual([]);
  });
});

describe("the demo's finished version", () => {
  const solution = boardOf(demoSolution());

  test("R29 its tightest move has 1.78 times the time it takes", () => {
    expect(Math.min(...sharesOf(solution))).toBeCloseTo(1.78, 2);
  });

  test("R15 one step in octaves, D C on top of chorus bars 5 to 6, is no run", () => {
    const found = check(solution).filter(({ rule }) =>
      ["R15", "R17", "R29", "R31", "R32"].includes(rule),
    );
    expect(found).toEqual([]);
    const section = solution.sections.find(({ name }) => name === "Chorus");
    const { passages } = preparedBoard(solution);
    const chorus = passages.find(({ passage }) => passage.section.id === section?.id);
    const tops = chorus?.segments
      .slice(4, 6)
      .map(({ upper, lower }) => [(upper?.at(-1) ?? 0) % 12, (lower?.at(-1) ?? 0) % 12]);
    expect(tops).toEqual([
      [2, 2],
      [0, 0],
    ]);
  });
});
