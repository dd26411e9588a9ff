/** Other grips of the same chords. */
import { slotId } from "@halflap/board/ids";
import { printGrip } from "@halflap/theory/grip";
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, smallBoard } from "../test-support/small-board.ts";
import { relief, taken, waysOf } from "../test-support/ways.ts";

const full = "1-3-1-2-1-1";

describe("O1 another grip", () => {
  test("takes away a register that both share, with the grips for pictures", () => {
    const board = smallBoard({ sections: bars(["F7", full, full]), key: "F" });
    const way = waysOf(board, "R03").find(({ grips }) => grips.length === 1);
    expect(way?.words).toMatch(/^F7 on strings [1-6-]+: [\dx-]+ in bar 1$/);
    expect(way?.removes.map(({ rule }) => rule)).toContain("R03");
    expect(way && relief(board, way)).toBeGreaterThan(0);
    expect(way?.grips[0]?.before).toBe(board.lanes[way?.lane ?? "upper"].grips.get(slotId("s1")));
  });

  test("R07 adds the tone that nobody plays", () => {
    // Nobody has the 3rd of G: G D G over D G D.
    const sections = bars(["G", "x-x-x-0-3-3", "3-x-0-0-x-x"], ["C", "x-x-5-5-5-x", "x-3-2-x-x-x"]);
    const board = smallBoard({ sections });
    const [way] = waysOf(board, "R07");
    expect(way?.removes.map(({ rule }) => rule)).toContain("R07");
    const after = way && check(taken(board, way));
    expect(after?.filter(({ rule }) => rule === "R07")).toEqual([]);
  });

  test("R36 a grip of an older chord stays if it does, or gives way to one of the new", () => {
    const chosenFor = new Map([[slotId("s1"), "Ebmaj7"]]);
    const fits = smallBoard({
      sections: bars(["Dm7", "x-x-x-9-8-8", "-"]),
      laneMore: { upper: { chosenFor } },
    });
    const ways = waysOf(fits, "R36");
    expect(ways.map(({ words }) => words)).toContain("Keep x-x-x-9-8-8 for Dm7 in bar 1");
    const wrong = smallBoard({
      sections: bars(["Dm7", "x-x-x-8-8-10", "-"]),
      laneMore: { upper: { chosenFor } },
    });
    const others = waysOf(wrong, "R36");
    expect(others.length).toBeGreaterThan(0);
    expect(others.some(({ words }) => words.startsWith("Keep"))).toBe(false);
  });
});

describe("O1 a run of slots", () => {
  const run = smallBoard({
    sections: bars(
      ["F7", full, full],
      ["Bb7", "x-1-3-1-3-1", "x-1-3-1-3-1"],
      ["C7", "x-3-2-3-1-0", "x-3-2-3-1-0"],
      ["F7", full, full],
    ),
    key: "F",
  });

  test("is changed as a whole, with a grip for every slot but the last chord", () => {
    const ways = waysOf(run, "R01").filter(({ grips }) => grips.length === 3);
    expect(ways.length).toBeGreaterThan(1);
    for (const way of ways) {
      expect(way.removes.map(({ rule }) => rule)).toContain("R01");
      expect(check(taken(run, way)).filter(({ rule }) => rule === "R01")).toEqual([]);
    }
  });

  test("keeps to one set of strings from slot to slot, or says otherwise", () => {
    const linked = waysOf(run, "R01").filter(({ words }) => words.startsWith("Grips on strings"));
    expect(linked.length).toBeGreaterThan(0);
    for (const { grips } of linked) {
      const sets = grips.map(({ after }) => after?.frets.map((each) => each === undefined).join());
      expect(new Set(sets).size).toBe(1);
    }
  });
});

test("O1 R32 the grip beside is no way out where it is another chord", () => {
  const sections = bars(
    ["E", "-", "x-x-2-1-0-0"],
    ["G#m", "-", "x-x-6-4-4-x"],
    ["A", "-", "x-0-2-2-2-0"],
  );
  const board = smallBoard({ sections, key: "E" });
  const second = waysOf(board, "R32").flatMap(({ grips }) =>
    grips.filter(({ slot }) => slot === slotId("s2")).map(({ after }) => after && printGrip(after)),
  );
  expect(second).not.toContain("x-x-2-1-0-0");
});

test("O1 lanes that may not change are left alone", () => {
  const board = smallBoard({ sections: bars(["F7", full, full]), key: "F" });
  const ways = waysOf(board, "R03", { lanes: ["lower"] });
  expect(ways.length).toBeGreaterThan(0);
  expect(new Set(ways.map(({ lane }) => lane))).toEqual(new Set(["lower"]));
});
