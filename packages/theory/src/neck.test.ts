/** The neck gives every grip that the wishes allow and no other. */

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Hand, usualHand } from "./fingers.ts";
import { type Grip, gripOf, gripPitches, printGrip } from "./grip.ts";
import { whyUnplayable } from "./hand.ts";
import {
  everydayWishes,
  fullWishes,
  gripsOf,
  reasonsAgainst,
  type Wishes,
  whyNot,
  whyOffered,
} from "./neck.ts";
import { chord, grip } from "./test-support/as-read.ts";
import { defaultSetup, highestFret, type Setup, stringNumbers } from "./tuning.ts";
import { fret } from "./units.ts";

const printed = (text: string, wishes: Wishes, setup = defaultSetup) =>
  gripsOf(chord(text), setup, wishes).map(printGrip);

const capoTwo: Setup = { ...defaultSetup, capo: fret(2), fretsFrom: "nut" };

/**
 * Every way to put silent, open or stopped on six strings up to a fret, without any of the rules.
 */
function everyGrip(setup: Setup, wishes: Wishes, last: number): readonly Grip[] {
  const first = setup.fretsFrom === "nut" ? setup.capo + 1 : 1;
  const stopped = Array.from({ length: last - first + 1 }, (_, index) => fret(first + index));
  const choices = stringNumbers.map((string) =>
    wishes.strings?.includes(string) === false ? [undefined] : [undefined, fret(0), ...stopped],
  );
  const all = choices.reduce<(ReturnType<typeof fret> | undefined)[][]>(
    (grips, places) => grips.flatMap((begun) => places.map((place) => [...begun, place])),
    [[]],
  );
  return all.filter((frets) => frets.some((place) => place !== undefined)).map(gripOf);
}

describe("T14 complete and sound", () => {
  const narrow: Wishes = { ...everydayWishes(true), strings: [4, 3, 2, 1] };
  const wide: Wishes = { ...fullWishes(false), strings: [6, 5, 4, 3] };
  test.each([
    ["F7", defaultSetup, narrow, 7],
    ["C", defaultSetup, narrow, 7],
    ["Bdim7", defaultSetup, narrow, 7],
    ["C7alt", defaultSetup, narrow, 7],
    ["G5", defaultSetup, narrow, 7],
    ["D/F#", defaultSetup, wide, 6],
    ["Am7", defaultSetup, wide, 6],
    ["E7#9", capoTwo, narrow, 8],
    ["G", { ...defaultSetup, capo: fret(3) }, wide, 5],
  ] as const)("%s, the same as by trying every grip", (text, setup, wishes, last) => {
    const limits = {
      ...wishes,
      highestFret: fret(last + (setup.fretsFrom === "capo" ? setup.capo : 0)),
    };
    const found = printed(text, limits, setup);
    const tried = everyGrip(setup, limits, last)
      .filter((each) => whyNot(each, chord(text), setup, limits) === undefined)
      .map(printGrip);
    expect(new Set(found)).toEqual(new Set(tried));
    expect(found.length).toBe(new Set(found).size);
    expect(found.length).toBeGreaterThan(3);
  });

  test("what is offered is held by a hand, within the wishes, in tones of the chord", () => {
    const symbols =
      "F7 D7 Gm7 C7 A7 Dm7 G7 Bb7 Bdim7 F7/C Bb6 Edim7 Cmaj9 Am11 E7#9 G13 Dsus4".split(" ");
    fc.assert(
      fc.property(fc.constantFrom(...symbols), fc.integer({ min: 0, max: 5 }), (text, capo) => {
        const setup = { ...defaultSetup, capo: fret(capo) };
        const read = chord(text);
        const allowed = new Set(
          [...read.tones, ...read.tensions].map((tone) => tone.pitchClass as number),
        );
        return gripsOf(read, setup, everydayWishes(true)).every(
          (each) =>
            whyUnplayable(each, setup) === undefined &&
            gripPitches(each, setup).every(
              (pitch) => allowed.has(pitch % 12) || pitch % 12 === read.bassClass,
            ) &&
            each.frets.every((played) => (played ?? 0) <= highestFret(setup)),
        );
      }),
      { numRuns: 40 },
    );
  });

  test("the same question has the same answer in the same order", () => {
    expect(printed("F7", everydayWishes(true))).toEqual(printed("F7", everydayWishes(true)));
  });
});

describe("T12 T13 small voicings for two guitars are offered", () => {
  test.each([
    ["F7", "x-x-3-2-4-x x-x-x-x-8-8 x-x-x-12-13-x"],
    ["D7", "x-x-4-5-3-x x-x-x-x-10-10 x-x-x-14-15-x"],
    ["Gm7", "x-x-3-3-3-x x-x-x-x-10-10"],
    ["C7", "x-x-2-3-1-x x-x-x-x-8-10 x-x-5-3-5-x x-x-x-12-13-x x-x-x-12-15-x"],
    ["A7", "x-x-2-0-2-x x-x-x-x-10-12"],
    ["Dm7", "x-x-3-2-1-x x-x-x-x-10-12"],
    ["G7", "x-x-3-4-3-x x-x-x-x-8-12 x-x-x-12-15-x"],
    ["Bb7", "x-x-3-1-3-x x-x-x-x-11-13 x-x-x-10-13-x"],
    ["Bdim7", "x-x-3-1-3-x x-x-x-x-12-13"],
    ["F7/C", "x-x-3-2-4-x x-x-x-x-13-13"],
  ])("%s: %s", (text, grips) => {
    const offered = printed(text, everydayWishes(true));
    for (const each of grips.split(" ")) expect(offered, each).toContain(each);
  });
});

describe("T12 ordinary open and barre grips are offered to those who ask", () => {
  test.each([
    ["F7", "1-3-1-2-1-1 x-x-3-5-4-5"],
    ["G7", "3-2-0-0-0-1"],
    ["C", "x-3-2-0-1-0"],
    ["C7", "x-3-2-3-1-0"],
    ["Gm7", "3-5-3-3-3-3"],
    ["A7", "x-0-2-0-2-0"],
    ["Dm7", "x-x-0-2-1-1"],
    ["Bb7", "x-1-3-1-3-1"],
    ["Bdim7", "x-2-3-1-3-x"],
    ["E", "0-2-2-1-0-0"],
    ["Am", "x-0-2-2-1-0"],
    ["D", "x-x-0-2-3-2"],
    ["C/E", "0-3-2-0-1-0"],
    ["A5", "5-7-7-x-x-x"],
  ])("%s: %s", (text, grips) => {
    const offered = printed(text, fullWishes(false));
    for (const each of grips.split(" ")) expect(offered, each).toContain(each);
  });
});

describe("T14 it can be said why a grip is not offered", () => {
  const why = (grips: string, text: string, wishes = everydayWishes(true)) =>
    whyNot(grip(grips), chord(text), defaultSetup, wishes);
  test.each([
    ["x-x-3-2-4-x", "F7", undefined],
    ["x-x-3-1-4-x", "F7", "A♭ is not in F7, nor a colour of it."],
    // A whole G7, from its tones.
    ["x-x-x-0-3-1", "Bdim", "G is not in Bdim, nor a colour of it."],
    ["x-x-3-2-1-x", "F7", "It lacks the ♭7 (E♭) of F7."],
    ["x-3-x-3-1-x", "C7", "It silences a string between two that sound."],
    ["1-3-1-2-1-1", "F7", "It sounds 6 strings; you asked for 2 to 4."],
    ["x-x-0-14-13-x", "F7", "It mixes an open string with frets far up the neck."],
    ["x-x-x-x-20-20", "F7", "It reaches a fret outside those you asked for."],
    ["x-x-x-x-10-15", "F7", "It stretches 91 mm, further than you asked for."],
    ["x-x-15-x-8-x", "F7", "It stretches 136 mm; a hand reaches about 127 mm."],
  ])("%s for %s: %s", (grips, text, sentence) => {
    const wishes = sentence?.includes("91 mm")
      ? { ...everydayWishes(true), spanMax: 80 as never }
      : undefined;
    expect(why(grips, text, wishes)).toBe(sentence);
  });

  test("without a bass player the root and the slash bass are missed", () => {
    const alone = { ...fullWishes(false), tensions: true };
    expect(why("x-x-1-2-1-x", "F7", alone)).toBe("It lacks the 1 (F) of F7.");
    expect(why("x-x-3-2-4-x", "F7/C", alone)).toBe(
      "Its lowest note is not C, and nobody else plays the bass.",
    );
    expect(why("x-3-3-2-4-x", "F7/C", alone)).toBeUndefined();
  });

  // The root is what goes first once the fifth has to sound: common practice, no source.
  test("a slash bass that makes the chord no clearer takes the string of the last demand", () => {
    const alone = { ...everydayWishes(false), sounding: { min: 3, max: 4 } };
    expect(why("x-x-5-3-5-x", "C7/G", alone)).toBeUndefined();
    expect(why("x-x-5-3-3-x", "C7/G", alone)).toBe("It lacks the 3 (E) of C7/G.");
    expect(why("x-x-5-5-5-x", "C7/G", alone)).toBe("It lacks the ♭7 (B♭) of C7/G.");
    for (const text of ["C7/G", "C9/G", "C69/G", "D7b9/A"]) {
      for (const count of [3, 4]) {
        const wishes = { ...alone, sounding: { min: count, max: count } };
        expect([text, count, printed(text, wishes).length > 0]).toEqual([text, count, true]);
      }
    }
  });
});

describe("T14 every reason against a grip has a kind", () => {
  const kinds = (grips: string, text: string, changes: Partial<Wishes> = {}) => {
    const wishes = { ...everydayWishes(false), ...changes };
    const setup = { ...defaultSetup, capo: fret(1), fretsFrom: "nut" } as const;
    return reasonsAgainst(grip(grips), chord(text), setup, wishes).map((reason) => reason.kind);
  };
  const hand = (changes: Partial<Hand>): Partial<Wishes> => ({
    hand: { ...usualHand, ...changes },
  });
  test.each([
    ["x-x-3-2-4-x", "F7", {}, []],
    ["x-1-3-23-x-x", "F7", {}, ["off-neck"]],
    ["x-x-3-2-4-x", "F7", hand({ fingers: 2 }), ["fingers"]],
    ["x-x-3-3-3-x", "Gm7", hand({ barres: false, fingers: 2 }), ["fingers", "missing"]],
    ["x-x-2-2-9-x", "E7", {}, ["stretch", "foreign", "missing"]],
    ["x-x-3-2-4-x", "F7", { strings: [3, 2, 1] }, ["unwished-string"]],
    ["x-x-3-2-4-x", "F7", { highestFret: fret(3) }, ["fret-range"]],
    ["x-x-3-2-4-x", "F7", { lowestFret: fret(3) }, ["fret-range"]],
    ["x-x-3-2-4-x", "F7", { spanMax: 40 as never }, ["span"]],
    ["1-3-1-2-1-1", "F7", {}, ["count"]],
    ["1-x-1-2-x-x", "F7", {}, ["inner-mute"]],
    ["x-0-x-x-6-x", "F", {}, ["open-reach", "inner-mute", "foreign"]],
    ["x-x-3-2-4-x", "F7/C", {}, ["bass"]],
    ["x-x-5-2-3-x", "F", {}, ["missing", "tensions"]],
    ["x-8-7-10-x-x", "F", {}, ["doubling"]],
    ["x-0-3-3-3-x", "Bb", { openStrings: false }, ["open-string"]],
  ] as const)("%s for %s", (grips, text, changes, expected) => {
    expect(kinds(grips, text, changes)).toEqual(expected);
  });
});

describe("T14 it can be said what a grip is offered for", () => {
  test.each([
    ["x-x-3-2-4-x", "F7", "it sounds the 1 (F), the 3 (A) and the ♭7 (E♭), leaves out the 5 (C)."],
    [
      "x-x-x-x-8-8",
      "F7",
      "it sounds the 5 (C), leaves out the 1 (F), the 3 (A) and the ♭7 (E♭), adds the 9 (G).",
    ],
    ["x-x-x-2-1-1", "F", "it sounds the 1 (F), the 3 (A) and the 5 (C)."],
    [
      "x-x-5-5-5-x",
      "Am/G",
      "it sounds the ♭3 (C) and the 5 (E), leaves out the 1 (A), has its bass (G).",
    ],
    ["x-x-3-1-4-x", "F7", undefined],
  ])("%s for %s: %s", (grips, text, words) => {
    const told = whyOffered(grip(grips), chord(text), defaultSetup, everydayWishes(true));
    expect(told).toBe(words && `For ${text} ${words}`);
  });
});

test("T14 the same question is answered once", () => {
  const ask = (text: string) => gripsOf(chord(text), { ...defaultSetup }, everydayWishes(true));
  expect(ask("Bb13")).toBe(ask("Bb13"));
  expect(ask("Bb13")).not.toBe(ask("B13"));
});
