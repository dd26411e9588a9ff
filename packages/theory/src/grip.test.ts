/** Grips are typed in several ways, stored in one, and sound with tuning and capo. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { decodeGrip, gripOf, gripPitches, parseGrip, printGrip, sameGrip } from "./grip.ts";
import { defaultSetup, parseTuning, type Setup } from "./tuning.ts";
import { fret } from "./units.ts";

const capo = (at: number, fretsFrom: Setup["fretsFrom"]): Setup => ({
  ...defaultSetup,
  capo: fret(at),
  fretsFrom,
});

const read = (text: string, setup = defaultSetup) => {
  const reading = parseGrip(text, setup);
  return reading.ok ? printGrip(reading.value) : reading.error;
};

describe("T9 what a player types is read as the same grip", () => {
  test.each([
    ["x-x-3-2-4-x", "x-x-3-2-4-x"],
    ["xx324x", "x-x-3-2-4-x"],
    ["x x 3 2 4 x", "x-x-3-2-4-x"],
    ["X–X–3–2–4–X", "x-x-3-2-4-x"],
    ["  m,m,3,2,4,m ", "x-x-3-2-4-x"],
    ["x|x|o|2|3|2", "x-x-0-2-3-2"],
    ["x-x-x-14-15-x", "x-x-x-14-15-x"],
    ["320001", "3-2-0-0-0-1"],
  ])("%s", (typed, printed) => {
    expect(read(typed)).toBe(printed);
  });
});

describe("T9 what is no grip is refused where it goes wrong", () => {
  test.each([
    ["x-x-3-2-4", { kind: "wrong-count", column: 9, read: "", meant: undefined }],
    ["x-x-3-2-4-x-x", { kind: "wrong-count", column: 12, read: "x", meant: undefined }],
    ["x-x-3-q-4-x", { kind: "unknown-fret", column: 6, read: "q", meant: undefined }],
    ["x-x-23-2-4-x", { kind: "beyond-neck", column: 4, read: "23", meant: "22" }],
    ["x-x-x-x-x-x", { kind: "nothing-sounds", column: 0, read: "x-x-x-x-x-x", meant: undefined }],
    ["--324-", { kind: "wrong-count", column: 6, read: "", meant: "x-x-3-2-4-x" }],
    ["x--32-", { kind: "wrong-count", column: 6, read: "", meant: "x-x-x-3-2-x" }],
    ["xxxx1213", { kind: "wrong-count", column: 6, read: "1", meant: "x-x-x-x-12-13" }],
    ["", { kind: "wrong-count", column: 0, read: "", meant: undefined }],
  ])("%s", (typed, error) => {
    expect(read(typed)).toEqual(error);
  });

  test("a fret behind the capo is not on the neck", () => {
    expect(read("x-x-2-2-4-x", capo(3, "nut"))).toMatchObject({ kind: "beyond-neck", column: 4 });
    expect(read("x-x-20-2-4-x", capo(3, "capo"))).toMatchObject({
      kind: "beyond-neck",
      read: "20",
    });
  });
});

describe("T8 frets sound where the lane counts them from", () => {
  const sounds = (text: string, setup: Setup) => {
    const grip = decodeGrip(text);
    return grip === undefined ? [] : [...gripPitches(grip, setup)];
  };

  test("from the capo, every fret lies the capo higher", () => {
    expect(sounds("0-2-2-0-3-0", capo(3, "capo"))).toEqual([43, 50, 55, 58, 65, 67]);
  });

  test("from the nut, only the open strings are raised", () => {
    expect(sounds("0-5-5-0-6-0", capo(3, "nut"))).toEqual([43, 50, 55, 58, 65, 67]);
  });

  test("a grip kept from before the capo moved leaves silent what it can no longer reach", () => {
    expect(sounds("1-3-1-2-1-1", capo(2, "nut"))).toEqual([48, 57]);
  });

  test("another tuning is another pitch at the same fret", () => {
    const dropped = parseTuning("D A D G B E");
    expect(dropped.ok && sounds("0-0-0-2-3-2", { ...defaultSetup, tuning: dropped.value })).toEqual(
      [38, 45, 50, 57, 62, 66],
    );
  });
});

describe("T9 a stored grip has one spelling", () => {
  const frets = fc
    .array(fc.option(fc.integer({ min: 0, max: 24 }), { nil: undefined }), {
      minLength: 6,
      maxLength: 6,
    })
    .filter((strings) => strings.some((played) => played !== undefined))
    .map((strings) => strings.map((played) => (played === undefined ? undefined : fret(played))));

  test("printing and decoding gives the same grip", () => {
    fc.assert(
      fc.property(frets, (strings) => {
        const decoded = decodeGrip(printGrip(gripOf(strings)));
        return decoded !== undefined && sameGrip(decoded, gripOf(strings));
      }),
    );
  });

  test.each([
    "xx324x",
    "x-x-3-2-4-X",
    "x-x-03-2-4-x",
    "x-x-25-2-4-x",
    "x-x-x-x-x-x",
    "x-x-3-2-4",
    "",
  ])("%s is not it", (text) => {
    expect(decodeGrip(text)).toBeUndefined();
  });
});
