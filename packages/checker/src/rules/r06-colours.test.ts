/** R06: colours in both parts, the same or two forms of one. */
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, smallBoard } from "../test-support/small-board.ts";

function rulesOf(...played: readonly Played[]) {
  return check(smallBoard({ sections: bars(...played), key: "F" }));
}

function colours(played: Played) {
  return rulesOf(played).filter(({ rule }) => rule === "R06");
}

/** E3 B♭3 D4: the 9th of C7 on top. */
const ninth = "x-x-2-3-3-x";
/** E3 B♭3 D♭4. */
const flatNinth = "x-x-2-3-2-x";

describe("R06", () => {
  test("R06 the same colour in both parts is a look", () => {
    const found = colours(["C7", "x-x-x-x-8-10", ninth]);
    expect(found).toMatchObject([{ severity: "look" }]);
    expect(found[0]?.words).toBe("You both add the 9th (D): one is enough.");
    expect(found[0]?.notes.map(({ pitch }) => pitch)).toEqual([74, 62]);
  });

  test("R06 a colour of the symbol doubled is a look too", () => {
    expect(colours(["C9", "x-x-x-x-8-10", ninth])).toHaveLength(1);
  });

  test("R06 a colour in one part only is nothing", () => {
    expect(colours(["C7", "x-x-x-x-8-8", ninth])).toEqual([]);
  });

  test("R06 two forms of one degree are a fix that names both players' notes", () => {
    const found = rulesOf(["C7", "x-x-x-x-8-9", ninth]);
    expect(found.map(({ rule }) => rule)).not.toContain("R13");
    const [finding] = found.filter(({ rule }) => rule === "R06");
    expect(finding?.severity).toBe("fix");
    expect(finding?.words).toBe("The upper lane plays the ♭9 (D♭), the lower lane the 9th (D).");
  });

  test("R06 stands for the rub of the same two notes", () => {
    const found = rulesOf(["C7", "x-x-x-x-8-10", flatNinth]).map(({ rule }) => rule);
    expect(found).toContain("R06");
    expect(found).not.toContain("R10");
  });

  test("R06 not when the symbol declares both forms", () => {
    expect(colours(["C7b9#9", "x-x-x-x-8-11", flatNinth])).toEqual([]);
    expect(colours(["C7b9", "x-x-x-x-8-11", flatNinth])).toMatchObject([{ severity: "fix" }]);
  });

  test("R06 leaves a colour that the chord forbids to R13", () => {
    const found = rulesOf(["C7", "x-x-x-x-8-9", flatNinth]).map(({ rule }) => rule);
    expect(found).not.toContain("R06");
    expect(found.filter((rule) => rule === "R13")).toHaveLength(2);
  });
});
