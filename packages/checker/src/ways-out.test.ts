/** When there are ways out, and that they are the same for everybody. */
import { describe, expect, test } from "vitest";
import { makeChecker } from "./check.ts";
import { bars, smallBoard } from "./test-support/small-board.ts";
import { foundBy, taken, waysOf } from "./test-support/ways.ts";
import { waysOut } from "./ways-out.ts";

const full = "1-3-1-2-1-1";

describe("ways out", () => {
  test("are the same whenever they are asked for, whatever the checker knows", () => {
    const asked = smallBoard({ sections: bars(["F7", full, full], ["C7", "x-3-2-3-1-0", full]) });
    const checker = makeChecker();
    checker(asked);
    const once = waysOut(asked, foundBy(asked, "R03"), { checker });
    expect(once.length).toBeGreaterThan(0);
    expect(waysOut(asked, foundBy(asked, "R03"), { checker })).toEqual(once);
    expect(waysOf(asked, "R03")).toEqual(once);
  });

  test("are none for a finding that is gone", () => {
    const asked = smallBoard({ sections: bars(["F7", full, full]) });
    const finding = foundBy(asked, "R03");
    const [way] = waysOut(asked, finding);
    expect(way && waysOut(taken(asked, way), finding)).toEqual([]);
  });

  test("are none where nothing helps, for a note, for praise, and for what is silenced", () => {
    const unwritten = smallBoard({
      sections: bars(["C", "x-x-x-5-5-3", "x-3-2-0-1-x"]),
      more: { countIn: 0 },
    });
    expect(waysOf(unwritten, "R34")).toEqual([]);
    const note = smallBoard({ sections: bars(["C", "x-x-x-0-x-3", "x-3-2-0-x-x"]) });
    expect(foundBy(note, "R02").severity).toBe("note");
    expect(waysOf(note, "R02")).toEqual([]);
    const silenced = smallBoard({
      sections: bars(["F7", full, full]),
      silences: [{ rule: "R03", bars: [1] }],
    });
    expect(waysOf(silenced, "R03")).toEqual([]);
  });
});
