/** W1 to W4: the grips of a chord under a lane's wishes, held against the whole neck. */
import { type LaneWishes, usualWishes } from "@halflap/board/wishes";
import type { SoundingChord } from "@halflap/theory/chord";
import { type Grip, gripNotes, gripPitches, printGrip } from "@halflap/theory/grip";
import { everydayWishes, gripsOf } from "@halflap/theory/neck";
import { parseChord } from "@halflap/theory/parse-chord";
import { defaultSetup, type Setup, stringNumbers } from "@halflap/theory/tuning";
import { fret, midiNote } from "@halflap/theory/units";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { gripFrom } from "../test-support/wishing-board.ts";
import { meetsWishes, wishedGrips } from "./wished-grips.ts";

function chordOf(text: string): SoundingChord {
  const read = parseChord(text);
  if (!read.ok || read.value.kind !== "chord") throw new Error(`no chord: ${text}`);
  return read.value;
}

const symbols = ["F7", "Gm7", "C", "Bdim7", "Cmaj7", "A5", "Am/G", "C7/G"];

/** Grips under these wishes beside a bass player or without one. */
function gripsUnder(
  symbol: string,
  change: Partial<LaneWishes> = {},
  hasBass = true,
  setup: Setup = defaultSetup,
): readonly Grip[] {
  const wishes = { ...usualWishes, ...change };
  return wishedGrips(chordOf(symbol), { wishes, setup, hasBass });
}

const texts = (grips: readonly Grip[]) => grips.map(printGrip);
const stringsOf = (grip: Grip) =>
  stringNumbers.filter((_, index) => grip.frets[index] !== undefined).join("-");

/** Wishes that only ever take away; each says what it asks in plain terms of the written grip. */
const narrowing = {
  lowest: fc.integer({ min: 45, max: 70 }).map(midiNote),
  highest: fc.integer({ min: 55, max: 80 }).map(midiNote),
  lowestFret: fc.integer({ min: 1, max: 10 }).map(fret),
  highestFret: fc.integer({ min: 3, max: 15 }).map(fret),
  stringSets: fc.subarray<readonly (1 | 2 | 3 | 4 | 5 | 6)[]>(
    [
      [5, 4, 3],
      [4, 3, 2],
      [3, 2, 1],
      [3, 2],
      [2, 1],
      [4, 3, 2, 1],
    ],
    { minLength: 1 },
  ),
  stringsMin: fc.integer({ min: 2, max: 3 }),
  stringsMax: fc.integer({ min: 3, max: 4 }),
  openStrings: fc.constant(false),
  rootless: fc.constant(false),
  never: fc.constant(["x-x-3-2-4-x", "x-x-x-x-8-8", "x-3-x-3-x-x"].map(gripFrom)),
};

const someWishes = fc.record<Partial<LaneWishes>>(narrowing, { requiredKeys: [] });

/** W1 said once more, of one grip of the neck's. */
function isWished(grip: Grip, chord: SoundingChord, wishes: LaneWishes, hasBass: boolean): boolean {
  const notes = gripNotes(grip, defaultSetup);
  const frets = notes.map((note) => Number(note.fret));
  const stopped = frets.filter((each) => each > 0);
  const own = chord.tones.map((tone) => Number(tone.pitchClass)).concat(chord.bassClass);
  const colours = new Set(
    notes.map(({ pitch }) => pitch % 12).filter((each) => !own.includes(each)),
  );
  const isSet = wishes.stringSets.length > 0;
  const isCounted = !isSet || wishes.stringsMin !== 2 || wishes.stringsMax !== 4;
  const strings = [...stringsOf(grip)].filter((sign) => sign !== "-").map(Number);
  const hasGap = strings.some((each, i) => i > 0 && each !== (strings[i - 1] ?? 0) - 1);
  return (
    (!isCounted || (strings.length >= wishes.stringsMin && strings.length <= wishes.stringsMax)) &&
    (isSet
      ? wishes.stringSets.some((set) => set.join("-") === stringsOf(grip))
      : !hasGap && !(hasBass && strings.length <= 4 && strings.includes(6))) &&
    stopped.every((each) => each >= (wishes.lowestFret ?? 0)) &&
    stopped.every((each) => each <= (wishes.highestFret ?? 15)) &&
    (wishes.openStrings || !frets.includes(0)) &&
    notes.every(({ pitch }) => pitch >= (wishes.lowest ?? 0) && pitch <= (wishes.highest ?? 127)) &&
    colours.size <= 1 &&
    !wishes.never.some((never) => printGrip(never) === printGrip(grip))
  );
}

test("W1 complete and sound: the neck's grips that are within the wishes, and no others", () => {
  fc.assert(
    fc.property(fc.constantFrom(...symbols), fc.boolean(), someWishes, (symbol, hasBass, asked) => {
      const [chord, wishes] = [chordOf(symbol), { ...usualWishes, ...asked }];
      const all = gripsOf(chord, defaultSetup, {
        ...everydayWishes(hasBass),
        ...{ sounding: { min: 1, max: 6 }, innerMutes: true, rootless: wishes.rootless ?? hasBass },
        highestFret: defaultSetup.lastFret,
      });
      const wanted = all.filter((grip) => isWished(grip, chord, wishes, hasBass));
      expect(texts(gripsUnder(symbol, asked, hasBass)).sort()).toEqual(texts(wanted).sort());
    }),
    { numRuns: 40 },
  );
});

test("W2 a wish that narrows never adds a grip", () => {
  const oneMore = fc.constantFrom(...Object.keys(narrowing));
  fc.assert(
    fc.property(
      fc.constantFrom(...symbols),
      someWishes,
      fc.record(narrowing),
      oneMore,
      (symbol, asked, more, name) => {
        const { [name]: _, ...before } = asked as Record<string, unknown>;
        const added = { ...before, [name]: Reflect.get(more, name) };
        const wider = new Set(texts(gripsUnder(symbol, before)));
        const left = texts(gripsUnder(symbol, added));
        expect(left.filter((text) => !wider.has(text))).toEqual([]);
      },
    ),
    { numRuns: 150 },
  );
});

describe("W3", () => {
  test("a chord has some two hundred small grips, all within one colour and off string 6", () => {
    for (const symbol of ["F7", "Gm7", "Cmaj7", "Am", "Bdim7"]) {
      const { length } = gripsUnder(symbol);
      expect(length).toBeGreaterThan(100);
      expect(length).toBeLessThan(260);
    }
  });

  test("a wished set is used whole, with a gap in it too, and on string 6 beside a bass", () => {
    const sets = new Set(
      gripsUnder("F7", {
        stringSets: [
          [6, 4, 3],
          [2, 1],
        ],
      }).map(stringsOf),
    );
    expect([...sets].sort()).toEqual(["2-1", "6-4-3"]);
    expect(texts(gripsUnder("F7", { stringSets: [[6, 4, 3]] }))).toContain("1-x-1-2-x-x");
  });

  test("a set of five strings needs no number of strings beside it", () => {
    const five = gripsUnder("C", { stringSets: [[5, 4, 3, 2, 1]] });
    expect(texts(five)).toContain("x-3-2-0-1-0");
    expect(gripsUnder("C", { stringSets: [[5, 4, 3, 2, 1]], stringsMax: 3 })).toEqual([]);
  });

  test("with a lowest fret wished high up there is room above it", () => {
    const high = gripsUnder("F7", { lowestFret: fret(16), openStrings: false });
    expect(high.length).toBeGreaterThan(0);
    const places = high.flatMap((grip) => grip.frets.flatMap((played) => played ?? []));
    expect(Math.min(...places)).toBeGreaterThanOrEqual(16);
  });

  test("without a bass player, or where it is wished, grips of three strings have the root", () => {
    const rooted = (grips: readonly Grip[]) =>
      grips
        .map((grip) => gripPitches(grip, defaultSetup))
        .filter(({ length }) => length >= 3)
        .every((pitches) => pitches.some((pitch) => pitch % 12 === 5));
    expect(rooted(gripsUnder("F7", {}, false))).toBe(true);
    expect(rooted(gripsUnder("F7", { rootless: false }))).toBe(true);
    expect(rooted(gripsUnder("F7"))).toBe(false);
    expect(rooted(gripsUnder("F7", { rootless: true }, false))).toBe(false);
  });

  // G B♭ E: third, seventh and the bass that is written. Common practice, no source.
  test("but where a slash bass takes its string", () => {
    const three = gripsUnder("C7/G", { stringsMin: 3, stringsMax: 3 }, false);
    expect(texts(three)).toContain("x-x-5-3-5-x");
    for (const grip of three) expect((gripPitches(grip, defaultSetup)[0] ?? 0) % 12).toBe(7);
  });
});

describe("W4 grips that are liked", () => {
  const shell = gripFrom("1-x-1-2-x-x");

  test("come beside the others where they make the chord", () => {
    expect(texts(gripsUnder("F7"))).not.toContain(printGrip(shell));
    expect(texts(gripsUnder("F7", { liked: [shell] })).at(-1)).toBe(printGrip(shell));
    expect(texts(gripsUnder("C", { liked: [shell] }))).not.toContain(printGrip(shell));
  });

  test("come once, and not when another wish forbids them", () => {
    const usual = gripFrom("x-x-3-2-4-x");
    const liked = texts(gripsUnder("F7", { liked: [usual, shell], lowestFret: fret(2) }));
    expect(liked.filter((text) => text === printGrip(usual))).toHaveLength(1);
    expect(liked).not.toContain(printGrip(shell));
    expect(texts(gripsUnder("F7", { liked: [usual], never: [usual] }))).not.toContain(
      printGrip(usual),
    );
  });
});

test("the capo is counted in, both ways of counting frets", () => {
  for (const fretsFrom of ["capo", "nut"] as const) {
    const setup = { ...defaultSetup, capo: fret(3), fretsFrom };
    const chord = chordOf("F");
    const grips = gripsUnder("F", {}, true, setup);
    const own = new Set([...chord.tones, ...chord.tensions].map((tone) => tone.pitchClass));
    for (const grip of grips) {
      const pitches = gripPitches(grip, setup);
      expect(pitches).toHaveLength(grip.frets.filter((played) => played !== undefined).length);
      expect(pitches.every((pitch) => [...own].some((each) => each === pitch % 12))).toBe(true);
    }
    // The open D shape over capo 3, on its four strings.
    expect(texts(grips)).toContain(fretsFrom === "capo" ? "x-x-0-2-3-2" : "x-x-0-5-6-5");
  }
});

test("a grip behind the capo or beyond the neck meets no wishes", () => {
  const setup = { ...defaultSetup, capo: fret(3), fretsFrom: "nut" as const };
  const asked = { wishes: usualWishes, setup, hasBass: true };
  expect(meetsWishes(gripFrom("x-x-3-2-4-x"), chordOf("F7"), asked)).toBe(false);
  expect(meetsWishes(gripFrom("x-x-7-8-7-x"), chordOf("F7"), asked)).toBe(true);
});

test.each(["F7", "G7b9", "D13"])(
  "W3 the root of %s is asked for whatever its tones are",
  (text) => {
    const chord = chordOf(text);
    const apart: SoundingChord = JSON.parse(JSON.stringify(chord));
    const asked = {
      wishes: { ...usualWishes, rootless: false },
      setup: defaultSetup,
      hasBass: true,
    };
    const grips = gripsOf(chord, defaultSetup, everydayWishes(true));
    const meeting = grips.filter((grip) => meetsWishes(grip, chord, asked));
    expect(meeting.length).toBeLessThan(grips.length);
    expect(grips.filter((grip) => meetsWishes(grip, apart, asked))).toEqual(meeting);
  },
);
