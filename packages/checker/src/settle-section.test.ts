/** A section that is played in several ways: what each ending says is told, and nothing twice. */
import type { Board, Section } from "@halflap/board/board";
import { expect, test } from "vitest";
import { check } from "./check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "./test-support/small-board.ts";

const noSeventh: Played = ["C7", "x-x-x-x-8-8", "x-3-2-0-1-0"];
const complete: Played = ["C7", "x-x-x-x-8-6", "x-3-2-0-1-x"];
const clear: Played = ["C7", "x-x-x-9-8-x", "x-x-2-3-1-x"];
const overlap: Played = ["C7", "x-x-x-9-8-8", "x-x-x-5-8-8"];

/** Two bars of body and a bar for each of two rounds, and a section after it. */
function withEndings(
  played: readonly [Played, Played, Played, Played],
  more: Partial<SmallBoard> = {},
): Board {
  const sections = [...bars(...played), ...bars(clear)];
  const board = smallBoard({ sections, key: "F", form: [0, 1], ...more });
  const endings = (section: Section, index: number): Section => {
    if (index > 0) return section;
    const rounds = [undefined, undefined, [1], [2]];
    return { ...section, bars: section.bars.map((bar, i) => ({ ...bar, rounds: rounds[i] })) };
  };
  return {
    ...board,
    sections: board.sections.map(endings),
    form: board.form.map((entry, index) => (index > 0 ? entry : { ...entry, times: 2 })),
  };
}

const told = (board: Board, rule: string) =>
  check(board)
    .filter((finding) => finding.rule === rule)
    .map(({ bars, silenced }) => [bars.join(" "), silenced]);

test("L3 what both endings go on with is one finding over both", () => {
  const board = withEndings([complete, noSeventh, noSeventh, noSeventh]);
  expect(told(board, "R07")).toEqual([["b2 b3 b4", undefined]]);
  const [found] = check(board).filter(({ rule }) => rule === "R07");
  expect(found?.slots).toEqual(["s2", "s3", "s4"]);
  expect(found?.notes).toHaveLength(3 * 7);
});

test("L3 what one ending goes on with and the other does not is told once", () => {
  const second = withEndings([complete, noSeventh, complete, noSeventh]);
  expect(told(second, "R07")).toEqual([["b2 b4", undefined]]);
});

test("L4 a silence of one ending's run leaves the other's standing", () => {
  const silences = [{ rule: "R01", bars: [1, 2, 3] }];
  const board = withEndings([overlap, overlap, overlap, overlap], { silences });
  expect(told(board, "R01")).toEqual([
    ["b1 b2 b4", undefined],
    ["b1 b2 b3", "we like it so"],
  ]);
});

test("L6 findings that begin alike and end in different endings have ids of their own", () => {
  const silences = [{ rule: "R01", bars: [1, 2, 3] }];
  const ids = check(withEndings([overlap, overlap, overlap, overlap], { silences })).map(
    ({ id }) => id,
  );
  expect(new Set(ids).size).toBe(ids.length);
  expect(ids).toEqual(expect.arrayContaining(["R01:upper+lower:s1", "R01:upper+lower:s1|s3"]));
});
