/** Wishes in words, and letting go of one. */
import { slotId } from "@halflap/board/ids";
import { type LaneWishes, usualWishes, wishNames } from "@halflap/board/wishes";
import { gripOf } from "@halflap/theory/grip";
import { fret, midiNote } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { letGo, wishLines } from "./wish-lines.ts";

const grip = gripOf([undefined, undefined, fret(3), fret(2), fret(4), undefined]);
const lock = slotId("one");

/** Each wish by itself, and what is said of it. */
const said: readonly (readonly [Partial<LaneWishes>, string])[] = [
  [{ leaveAsIs: true }, "left as it is"],
  [{ lowest: midiNote(58) }, "notes from Bb3"],
  [{ highest: midiNote(70) }, "notes up to Bb4"],
  [{ lowest: midiNote(58), highest: midiNote(70) }, "notes Bb3 to Bb4"],
  [{ stringSets: [[4, 3, 2]] }, "strings 4-3-2"],
  [{ stringsMin: 3 }, "3 to 4 strings"],
  [{ stringsMin: 3, stringsMax: 3 }, "3 strings"],
  [{ lowestFret: fret(3), highestFret: fret(9) }, "frets 3 to 9"],
  [{ capo: fret(0) }, "no capo"],
  [{ capo: fret(3) }, "capo 3"],
  [{ rootless: false }, "with their roots"],
  [{ openStrings: false }, "no open strings"],
  [{ keepTop: true }, "notes on top kept"],
  [{ liked: [grip] }, "likes x-x-3-2-4-x"],
  [{ never: [grip] }, "never x-x-3-2-4-x"],
  [{ locked: new Set([lock]) }, "1 slot locked"],
];

test.each(said)("%j", (wish, words) => {
  expect(wishLines({ ...usualWishes, ...wish }, "flats")).toEqual([words]);
});

test("nothing wished says nothing", () => {
  expect(wishLines(usualWishes, "flats")).toEqual([]);
});

test("letting go of any wish brings its usual value back", () => {
  for (const name of wishNames) {
    expect(letGo(usualWishes, name, undefined)).toEqual({ [name]: usualWishes[name] });
  }
});

test("of the locks only the one on the slot goes", () => {
  const other = slotId("other");
  const wishes = { ...usualWishes, locked: new Set([lock, other]) };
  expect(letGo(wishes, "locked", lock)).toEqual({ locked: new Set([other]) });
});
