/** W9: wishes that can't hold together, the fewest of them, and the slot that shows it. */
import type { Board } from "@halflap/board/board";
import { type LaneWishes, usualWishes, type WishName, wishNames } from "@halflap/board/wishes";
import { fret, midiNote } from "@halflap/theory/units";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { boardOfChart, gripFrom, wishing, withGrips } from "../test-support/wishing-board.ts";
import { candidatesOf, chooserOf } from "./candidates.ts";
import { type Impossible, impossibleIn, onlyWishes } from "./impossible.ts";

const plain = boardOfChart("Four Bars\nF\n\n| F7 | F7 | Gm7 | C7 |");
const bars = plain.sections.flatMap((section) => section.bars);
const slots = bars.flatMap((bar) => bar.slots);
const ids = slots.map(({ id }) => id);
const [first = slots[0]?.id] = ids;

function clash(board: Board): Impossible | undefined {
  return impossibleIn(board, candidatesOf(board, "upper"));
}

const every = (text: string) => ids.map(() => text);

/** Every grip that F7 has on a set of strings, to rule all of them out. */
function allOf(set: LaneWishes["stringSets"][number]) {
  const [found] = candidatesOf(wishing(plain, { stringSets: [set] }), "upper").slots.values();
  if (found?.kind !== "grips") throw new Error("no grips");
  return found.grips;
}

type Case = [
  name: string,
  wishes: Partial<LaneWishes>,
  names: readonly WishName[],
  words: string,
  grip?: string,
];

const less = "ask for less there.";
const one = "let go of one of the two.";
const cases: Case[] = [
  [
    "too low a top",
    { highest: midiNote(44) },
    ["highest"],
    `F7 in bar 1 has no grip with no note above A♭2: ${less}`,
  ],
  [
    "too high a bottom",
    { lowest: midiNote(100) },
    ["lowest"],
    `F7 in bar 1 has no grip with no note below E7: ${less}`,
  ],
  [
    "a register of one note",
    { lowest: midiNote(60), highest: midiNote(60) },
    ["lowest", "highest"],
    `F7 in bar 1 has no grip from C4 to C4: ${less}`,
  ],
  [
    "all strings, and no frets",
    { stringsMin: 6, stringsMax: 6, highestFret: fret(0) },
    ["stringsMin", "highestFret"],
    `F7 in bar 1 has no grip of 6 strings up to fret 0: ${one}`,
  ],
  [
    "a note on top that is in no small grip",
    { keepTop: true },
    ["keepTop"],
    `F7 in bar 1 has no grip with A♭4 on top: ${less}`,
    "1-3-1-2-4-4",
  ],
  [
    "strings and frets",
    { stringSets: [[3, 2, 1]], lowestFret: fret(1), highestFret: fret(2) },
    ["stringSets", "highestFret"],
    `F7 in bar 1 has no grip on strings 3-2-1 up to fret 2: ${one}`,
  ],
  [
    "strings of another number",
    { stringSets: [[4, 3, 2, 1]], stringsMax: 3 },
    ["stringSets", "stringsMax"],
    `F7 in bar 1 has no grip on strings 4-3-2-1 of at most 3 strings: ${one}`,
  ],
  [
    "one set, all of whose grips are ruled out",
    { stringSets: [[4, 3, 2]], never: allOf([4, 3, 2]) },
    ["stringSets", "never"],
    `F7 in bar 1 has no grip on strings 4-3-2 but those that must not come: ${one}`,
  ],
  [
    "a capo above the frets that are wished",
    { capo: fret(7), highestFret: fret(5), openStrings: false },
    ["highestFret", "capo", "openStrings"],
    "F7 in bar 1 has no grip up to fret 5 with the capo on fret 7 without open strings: " +
      "let go of one of them.",
  ],
  [
    "a capo over a locked grip",
    { capo: fret(5), locked: new Set(first === undefined ? [] : [first]) },
    ["capo", "locked"],
    `F7 in bar 1 has no grip with the capo on fret 5 while its own is locked: ${one}`,
    "x-x-3-2-4-x",
  ],
  [
    "frets beyond the neck, and no open strings",
    { lowestFret: fret(23), openStrings: false },
    ["lowestFret", "openStrings"],
    `F7 in bar 1 has no grip from fret 23 up without open strings: ${one}`,
  ],
  [
    "three strings below a note that leaves room for two",
    { stringsMin: 3, stringsMax: 3, highest: midiNote(46) },
    ["highest", "stringsMin"],
    `F7 in bar 1 has no grip of 3 strings or more with no note above B♭2: ${one}`,
  ],
  [
    "a top note that only one set has",
    { stringSets: [[5, 4, 3]], keepTop: true },
    ["stringSets", "keepTop"],
    `F7 in bar 1 has no grip on strings 5-4-3 with C5 on top: ${one}`,
    "x-x-x-x-6-8",
  ],
  [
    "a root where there is no room for it",
    { rootless: false, stringSets: [[2, 1]], stringsMin: 3 },
    ["stringSets", "stringsMin"],
    `F7 in bar 1 has no grip on strings 2-1 of 3 strings or more: ${one}`,
  ],
];

describe("W9 names", () => {
  test.each<Case>(cases)("%s", (_, wishes, names, words, grip = "-") => {
    const found = clash(wishing(withGrips(plain, ...every(grip)), wishes));
    expect(found?.words).toBe(words);
    expect(found?.wishes).toEqual(names);
  });

  test("the root, where only rootless grips lie in reach", () => {
    const board = boardOfChart("One Bar\nF\n\n| F7 |");
    const reach = { stringSets: [[4, 3, 2]], lowestFret: fret(7), highestFret: fret(8) } as const;
    expect(clash(wishing(board, reach))).toBeUndefined();
    const found = clash(wishing(board, { ...reach, rootless: false }));
    expect(found?.wishes).toContain("rootless");
    expect(found?.words).toContain("with its root in it");
  });

  test("nothing where every slot has a grip", () => {
    expect(clash(plain)).toBeUndefined();
    expect(clash(wishing(plain, { leaveAsIs: true, highest: midiNote(20) }))).toBeUndefined();
    expect(clash(wishing(plain, { liked: [gripFrom("1-3-1-2-1-1")], keepTop: true }))).toBe(
      undefined,
    );
  });
});

const some = fc.record<Partial<LaneWishes>>(
  {
    lowest: fc.integer({ min: 48, max: 72 }).map(midiNote),
    highest: fc.integer({ min: 50, max: 76 }).map(midiNote),
    lowestFret: fc.integer({ min: 0, max: 12 }).map(fret),
    highestFret: fc.integer({ min: 1, max: 12 }).map(fret),
    stringSets: fc.constantFrom<LaneWishes["stringSets"]>(
      [[3, 2, 1]],
      [[4, 3, 2]],
      [
        [5, 3, 2],
        [2, 1],
      ],
      [[6, 5, 4, 3]],
    ),
    stringsMin: fc.constantFrom(3, 4),
    stringsMax: fc.constantFrom(2, 3, 5),
    openStrings: fc.constant(false),
    rootless: fc.constant(false),
    keepTop: fc.constant(true),
    capo: fc.constantFrom(0, 3, 7).map(fret),
    locked: fc.constant(new Set(ids.slice(0, 1))),
  },
  { requiredKeys: [] },
);

/** As reading leaves them: no lower bound above its upper one. */
function sound(wishes: Partial<LaneWishes>): Partial<LaneWishes> {
  const { lowest, highest, lowestFret, highestFret, stringsMin = 2, stringsMax = 4 } = wishes;
  const isTurned =
    (lowest ?? 0) > (highest ?? 127) ||
    (lowestFret ?? 0) > (highestFret ?? 24) ||
    stringsMin > stringsMax;
  return isTurned ? {} : wishes;
}

test("W9 fewer wishes leave none of the empty slots empty, and those that are named do", () => {
  const played = withGrips(plain, "x-x-3-2-4-x", "x-8-7-8-x-x", "x-x-3-3-3-x", "-");
  fc.assert(
    fc.property(some, (asked) => {
      const wishes = { ...usualWishes, ...sound(asked) };
      const emptyUnder = (names: readonly WishName[]) => {
        const choose = chooserOf(played, "upper", onlyWishes(wishes, names));
        return bars
          .flatMap((bar) => bar.slots.map((slot) => choose(slot, bar)))
          .filter((each) => each.kind === "grips" && each.grips.length === 0)
          .map(({ slot }) => slot.id);
      };
      const found = clash(wishing(played, wishes));
      const empty = emptyUnder(wishNames);
      expect(found !== undefined).toBe(empty.length > 0);
      if (found === undefined) return;
      const shown = emptyUnder(found.wishes).filter((id) => empty.includes(id));
      expect(shown[0]).toBe(found.slot);
      const names = wishNames.filter((name) => wishes[name] !== usualWishes[name]);
      for (let bits = 0; bits < 2 ** names.length; bits += 1) {
        const fewer = names.filter((_, index) => (bits & (1 << index)) !== 0);
        if (fewer.length >= found.wishes.length) continue;
        expect(emptyUnder(fewer).filter((id) => empty.includes(id))).toEqual([]);
      }
    }),
    { numRuns: 40 },
  );
});
