/** Where patterns are tried: with what stands on both sides of the section in the form. */
import type { Board } from "@halflap/board/board";
import { sectionId } from "@halflap/board/ids";
import { parseStrumText } from "@halflap/board/strum-text";
import { check } from "@halflap/checker/check";
import { type Played, smallBoard } from "@halflap/checker/test-support/small-board";
import { assert, ticks } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { strumIdeas } from "../interlock.ts";
import { aroundSection, type Place, withPattern } from "./trial.ts";

const low: Played = ["C7", "x-x-x-3-5-3", "x-x-2-3-1-x"];
const high: Played = ["C7", "x-x-x-12-11-12", "x-x-2-3-1-x"];

test("a section is kept with all that stands before and after it, in the order of the form", () => {
  const sections = [[[low]], [[low]], [[low]], [[low]]];
  const kept = (form: readonly number[], section: number) =>
    aroundSection(smallBoard({ sections, form }), sectionId(`section${section}`));
  const formOf = ({ form }: Board) => form.map(({ section }) => section.slice(-1)).join(" ");
  expect(formOf(kept([0, 1, 2, 3], 1))).toBe("0 1 2");
  expect(formOf(kept([0, 1, 2, 3], 0))).toBe("0 1");
  expect(formOf(kept([3, 1, 1, 0, 2, 3], 1))).toBe("3 1 1 0");
  expect(kept([0, 1, 2, 3], 3).sections.map(({ name }) => name)).toEqual(["C", "D"]);
});

test("R29 no idea brings a stop at the seam into its section, told in the bar before", () => {
  const place: Place = { lane: "upper", section: sectionId("section1") };
  const late = parseStrumText("....D.D.");
  assert(late.ok, "a pattern");
  const board = withPattern(
    smallBoard({
      sections: [
        [[low], [low]],
        [[high], [high]],
      ],
      strums: { upper: ".U.U.U.U", lower: "D.D.D.D." },
      tempo: 120,
    }),
    place,
    { name: "late", step: ticks(24), feel: "board", palmMute: false, steps: late.value },
  );
  const stops = (each: Board) => check(each).filter(({ severity }) => severity === "stop");
  expect(stops(board)).toEqual([]);
  const ideas = strumIdeas(board, place.lane, place.section);
  expect(ideas.length).toBeGreaterThan(0);
  expect(ideas.flatMap(({ strum }) => stops(withPattern(board, place, strum)))).toEqual([]);
});
