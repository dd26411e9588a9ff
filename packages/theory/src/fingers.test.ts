/** How few fingers hold a grip, for hands of several kinds. */
import { describe, expect, test } from "vitest";
import { fingersFor, type Hand, usualHand, widestBarre } from "./fingers.ts";
import { decodeGrip } from "./grip.ts";

const places = (text: string) => {
  const grip = decodeGrip(text);
  if (grip === undefined) throw new Error(`no grip: ${text}`);
  return grip.frets;
};
const fingers = (text: string, changes: Partial<Hand> = {}) =>
  fingersFor(places(text), 0, { ...usualHand, ...changes });

describe("T11 without barres each stopped string has its own finger", () => {
  test.each([
    ["1-3-3-2-1-1", 3, 6],
    ["x-0-2-2-2-0", 1, 3],
    ["3-2-0-0-0-3", 3, 3],
    ["0-0-0-0-0-0", 0, 0],
  ])("%s needs %i fingers, and %i without", (text, barred, single) => {
    expect(fingers(text)).toBe(barred);
    expect(fingers(text, { barres: false })).toBe(single);
  });

  test("nor is there a widest barre", () => {
    expect(widestBarre(places("1-3-3-2-1-1"), 0)).toBe(6);
    expect(widestBarre(places("1-3-3-2-1-1"), 0, { ...usualHand, barres: false })).toBe(0);
  });
});

describe("T11 a string inside a barre may be damped, by a hand that does so", () => {
  test.each([
    ["8-x-10-9-10-8", 5, 4],
    ["5-x-5-5-x-x", 2, 1],
    ["5-0-5-5-x-x", 2, 2],
    ["5-4-5-5-x-x", 3, 3],
  ])("%s needs %i fingers, damped %i", (text, plain, damped) => {
    expect(fingers(text)).toBe(plain);
    expect(fingers(text, { barreMutes: true })).toBe(damped);
  });
});

describe("T11 the thumb stops the lowest strings from above the neck", () => {
  test.each([
    ["2-0-0-2-3-2", 3, 2, 2, "the thumb in place of a finger"],
    ["1-x-3-2-1-1", 4, 3, 3, "beside a small barre"],
    ["x-2-4-4-4-x", 2, 2, 1, "over the fifth string, when the sixth is silent"],
    ["2-2-4-3-1-x", 4, 4, 3, "over both at one fret"],
    ["2-3-4-1-x-x", 4, 3, 3, "over the sixth alone where the fifth lies elsewhere"],
    ["0-2-4-3-1-x", 4, 4, 4, "not over an open string"],
    ["5-x-2-3-4-x", 4, 4, 4, "not two frets beyond the first finger"],
    ["x-x-4-3-2-1", 4, 4, 4, "nor over strings it can't reach"],
  ])("%s: %i, with one string %i, with two %i: %s", (text, none, one, two) => {
    expect(fingers(text)).toBe(none);
    expect(fingers(text, { thumbStrings: 1 })).toBe(one);
    expect(fingers(text, { thumbStrings: 2 })).toBe(two);
  });
});
