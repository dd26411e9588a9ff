/** Wishes stay whole, however they are changed. */
import { type LaneWishes, usualWishes } from "@halflap/board/wishes";
import { gripOf } from "@halflap/theory/grip";
import { fret, midiNote } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import {
  boundChange,
  gripChange,
  neighbouringSets,
  stringSetChange,
  typedStringSet,
} from "./wish-change.ts";

const grip = gripOf([undefined, undefined, fret(3), fret(2), fret(4), undefined]);

describe("bounds", () => {
  test("the other bound moves along where it would lie on the wrong side", () => {
    const wishes = { ...usualWishes, lowest: midiNote(50), highest: midiNote(60) };
    expect(boundChange(wishes, "lowest", midiNote(55))).toEqual({ lowest: 55 });
    expect(boundChange(wishes, "lowest", midiNote(65))).toEqual({ lowest: 65, highest: 65 });
    expect(boundChange(wishes, "highest", midiNote(45))).toEqual({ lowest: 45, highest: 45 });
    expect(boundChange(usualWishes, "stringsMin", 5)).toEqual({ stringsMin: 5, stringsMax: 5 });
    expect(boundChange(usualWishes, "stringsMax", 1)).toEqual({ stringsMin: 1, stringsMax: 1 });
  });

  test("no bound moves nothing", () => {
    const wishes = { ...usualWishes, highestFret: fret(3) };
    expect(boundChange(wishes, "lowestFret", undefined)).toEqual({ lowestFret: undefined });
    expect(boundChange(usualWishes, "lowestFret", fret(9))).toEqual({ lowestFret: 9 });
  });
});

describe("sets of strings", () => {
  test("neighbours in threes and fours", () => {
    expect(neighbouringSets.map((set) => set.join("-"))).toEqual([
      "6-5-4",
      "5-4-3",
      "4-3-2",
      "3-2-1",
      "6-5-4-3",
      "5-4-3-2",
      "4-3-2-1",
    ]);
  });

  test.each([
    ["5-3-2", [5, 3, 2]],
    [" 2 3 5 ", [5, 3, 2]],
    ["432", [4, 3, 2]],
    ["6,1", [6, 1]],
  ])("%s is read", (text, set) => {
    expect(typedStringSet(text)).toEqual(set);
  });

  test.each(["", "4", "7-3-2", "4-4-2", "low", "0-1-2", "4-x-2"])("%s is not", (text) => {
    expect(typedStringSet(text)).toBeUndefined();
  });

  test("a set that is wished goes, another comes, and so many strings may sound then", () => {
    const after = stringSetChange(usualWishes, [4, 3, 2]);
    expect(after).toEqual({ stringSets: [[4, 3, 2]] });
    const wishes: LaneWishes = { ...usualWishes, ...after };
    expect(stringSetChange(wishes, [4, 3, 2])).toEqual({ stringSets: [] });
    expect(stringSetChange(wishes, [6, 5, 4, 3, 2])).toEqual({
      stringSets: [
        [4, 3, 2],
        [6, 5, 4, 3, 2],
      ],
      stringsMax: 5,
    });
  });
});

describe("grips", () => {
  test("a grip is on one list at most, and comes off by the same press", () => {
    expect(gripChange(usualWishes, "liked", grip)).toEqual({ liked: [grip] });
    const liked: LaneWishes = { ...usualWishes, liked: [grip] };
    expect(gripChange(liked, "never", grip)).toEqual({ never: [grip], liked: [] });
    expect(gripChange(liked, "liked", gripOf(grip.frets))).toEqual({ liked: [] });
  });
});
