/** How the list of findings is joined, ordered, silenced and counted. */
import { memberId } from "@halflap/board/talk";
import { describe, expect, test } from "vitest";
import { check, makeChecker } from "./check.ts";
import { countBySeverity, isBlocked } from "./count.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "./test-support/small-board.ts";

const noSeventh: Played = ["C7", "x-x-x-x-8-8", "x-3-2-0-1-0"];
const complete: Played = ["C7", "x-x-x-x-8-6", "x-3-2-0-1-x"];

function missing(sections: SmallBoard["sections"], more: Partial<SmallBoard> = {}) {
  return check(smallBoard({ sections, key: "F", ...more })).filter(({ rule }) => rule === "R07");
}

describe("the list of findings", () => {
  test("L2 joins slots in a row that say the same", () => {
    const found = missing([[[noSeventh], [noSeventh, noSeventh]]]);
    expect(found).toMatchObject([
      { id: "R07:upper+lower:s1", bars: ["b1", "b2"], slots: ["s1", "s2", "s3"] },
    ]);
    expect(found[0]?.notes).toHaveLength(3 * 7);
  });

  test("L2 L3 keeps apart what another slot or a section's end separates", () => {
    expect(missing(bars(noSeventh, complete, noSeventh))).toHaveLength(2);
    expect(missing([...bars(noSeventh), ...bars(noSeventh)])).toHaveLength(2);
  });

  test("L5 goes by chart position, then severity, then rule", () => {
    const board = smallBoard({
      sections: bars(
        ["C7", "x-x-0-2-3-0", "x-3-2-0-1-0"],
        ["F7", "4-6-4-5-4-4", "1-3-1-2-1-1"],
        ["C7", "x-3-2-0-1-0", "x-3-2-0-1-0"],
      ),
      key: "F",
    });
    const found = check(board).map(
      ({ bars: [bar], severity, rule }) => `${bar} ${severity} ${rule}`,
    );
    expect(found).toEqual([...found].sort(byPlace));
    expect(new Set(found.map((line) => line.slice(0, 2))).size).toBe(3);
  });

  test("L6 gives every finding an id of its own that edits elsewhere leave alone", () => {
    const before = smallBoard({ sections: bars(complete, noSeventh), key: "F" });
    const after = smallBoard({ sections: bars(noSeventh, noSeventh), key: "F" });
    const idsOf = (board: typeof before) => check(board).map(({ id }) => id);
    expect(new Set(idsOf(before)).size).toBe(idsOf(before).length);
    expect(idsOf(before)).toContain("R07:upper+lower:s2");
    expect(idsOf(after)).toContain("R07:upper+lower:s1");
  });

  test("L7 hands back the findings of last time that still say the same", () => {
    const checker = makeChecker();
    const first = checker(smallBoard({ sections: bars(noSeventh, complete), key: "F" }));
    const again = checker(smallBoard({ sections: bars(noSeventh, complete), key: "F" }));
    expect(again.every((finding, index) => finding === first[index])).toBe(true);
    const second = checker(smallBoard({ sections: bars(noSeventh, noSeventh), key: "F" }));
    expect(second.some((finding) => first.includes(finding))).toBe(false);
  });

  test("L1 drops what a graver finding about the same notes says, and nothing else", () => {
    // The 4th against the 3rd names the F that is foreign to C7; the D flat is named by R13 only.
    const rules = (upper: string) =>
      check(smallBoard({ sections: bars(["C7", upper, "x-3-2-0-1-0"]), key: "F" }))
        .map(({ rule }) => rule)
        .filter((rule) => rule === "R11" || rule === "R13");
    expect(rules("x-x-x-x-6-x")).toEqual(["R11"]);
    expect(rules("x-x-x-6-6-x")).toEqual(["R11", "R13"]);
  });

  test("calls players by name when both are known and differ", () => {
    const [mara, theo] = [
      { id: memberId("m1"), name: "Mara", role: "leader" as const },
      { id: memberId("m2"), name: "Theo", role: "player" as const },
    ];
    const rub = bars(["F", "x-x-x-x-2-x", "x-x-x-x-1-x"]);
    const wordsOf = (players: SmallBoard["players"]) =>
      check(smallBoard({ sections: rub, key: "F", players })).find(({ rule }) => rule === "R10")
        ?.words;
    expect(wordsOf([mara, theo])).toBe("Mara's D♭ rubs against Theo's C.");
    expect(wordsOf([mara])).toBe("Mara's D♭ rubs against the lower lane's C.");
    expect(wordsOf([mara, { ...theo, name: "Mara" }])).toContain("The upper lane's");
  });
});

describe("a silence", () => {
  test("L4 covers a finding when all of its bars are covered, and gives its reason", () => {
    const one = missing(bars(noSeventh), { silences: [{ rule: "R07", bars: [1] }] });
    expect(one.map(({ silenced }) => silenced)).toEqual(["we like it so"]);
    const other = missing(bars(noSeventh), { silences: [{ rule: "R01", bars: [1] }] });
    expect(other.map(({ silenced }) => silenced)).toEqual([undefined]);
  });

  test("L4 covers no more than its bars: the rest of a run stands by itself", () => {
    const found = missing(bars(noSeventh, noSeventh, noSeventh), {
      silences: [{ rule: "R07", bars: [2] }],
    });
    expect(found.map(({ bars, silenced }) => [bars, silenced])).toEqual([
      [["b1"], undefined],
      [["b2"], "we like it so"],
      [["b3"], undefined],
    ]);
  });

  test("L4 covers a run of overlap only as a whole, by one silence or several", () => {
    const wide: Played = ["C", "x-3-2-0-1-0", "0-3-2-0-1-0"];
    const runs = (silences: SmallBoard["silences"]) =>
      check(smallBoard({ sections: bars(wide, wide), form: [0, 0], silences }))
        .filter(({ rule }) => rule === "R01")
        .map(({ silenced }) => silenced !== undefined);
    expect(runs([{ rule: "R01", bars: [1] }])).toEqual([false]);
    expect(runs([{ rule: "R01", bars: [1, 2] }])).toEqual([true]);
    expect(
      runs([
        { rule: "R01", bars: [2] },
        { rule: "R01", bars: [1] },
      ]),
    ).toEqual([true]);
  });

  test("L4 keeps its findings countable, and out of the way", () => {
    const sections = bars(["C7", "x-x-x-x-8-8", "x-3-5-3-x-x"]);
    const standing = check(smallBoard({ sections, key: "F" }));
    const none = { stop: 0, fix: 0, look: 0, note: 0, praise: 0, silenced: 0 };
    expect(countBySeverity(standing)).toEqual({ ...none, fix: 1 });
    expect(isBlocked(standing)).toBe(true);
    const silences = [{ rule: "R07", bars: [1] }];
    const silenced = check(smallBoard({ sections, key: "F", silences }));
    expect(countBySeverity(silenced)).toEqual({ ...none, silenced: 1 });
    expect(isBlocked(silenced)).toBe(false);
  });
});

/** "b1 fix R07" by bar, severity, rule. */
function byPlace(a: string, b: string): number {
  const rank = (line: string) => {
    const [bar = "", severity = "", rule = ""] = line.split(" ");
    return `${bar}${["stop", "fix", "look", "note"].indexOf(severity)}${rule}`;
  };
  return rank(a).localeCompare(rank(b));
}
