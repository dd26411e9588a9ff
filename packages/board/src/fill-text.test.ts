/** Typed fills: beats, strings and frets, ways, and what is refused. */
import { defaultSetup, stringNumbers } from "@halflap/theory/tuning";
import { fret, ticks } from "@halflap/theory/units";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Stretch } from "./beat-text.ts";
import { parseFillText, printFillText } from "./fill-text.ts";
import type { FillNote } from "./playing.ts";

/** Beats 3 and 4 of a bar in 4/4. */
const half: Stretch = { start: ticks(96), length: ticks(96), beat: ticks(48) };

function notesOf(text: string, stretch = half): readonly FillNote[] {
  const read = parseFillText(text, stretch, defaultSetup);
  if (!read.ok) throw new Error(read.error.words);
  return read.value;
}
const short = (text: string) =>
  notesOf(text).map((note) => [note.start, note.length, note.string, note.fret]);
const rewritten = (text: string) => printFillText(notesOf(text), half);

describe("N1 notes by beats", () => {
  test("each lasts to the next, the last to the end", () => {
    expect(short("3 2:10  3.5 1:8  4 2:10+1:10")).toEqual([
      [0, 24, 2, 10],
      [24, 24, 1, 8],
      [48, 48, 2, 10],
      [48, 48, 1, 10],
    ]);
  });

  test("halves and quarters of a beat are written in any of the usual ways", () => {
    for (const beat of ["3.5", "3,5", "3½", "3&"]) {
      expect(short(`${beat} 1:8`)).toEqual([[24, 72, 1, 8]]);
    }
    expect(short("3¼ 1:8")[0]?.[0]).toBe(12);
    expect(short("3.33 1:8")[0]?.[0]).toBe(16);
  });

  test("N2 a length in beats stands after a slash, a ring after a star", () => {
    expect(notesOf("3 3:9*/½ 4 2:8")).toMatchObject([
      { length: 24, letRing: true },
      { length: 48, letRing: false },
    ]);
  });

  test("N3 ways stand before the string, a bend says how far", () => {
    expect(notesOf("3 2:8 3.25 h2:10 3.5 p2:8 3.75 s2:6 4 b1:8^½")).toMatchObject([
      { way: "pluck", bend: 0 },
      { way: "hammer-on" },
      { way: "pull-off" },
      { way: "slide" },
      { way: "bend", bend: 0.5, string: 1 },
    ]);
  });

  test("a fill may go on into the next bar", () => {
    const long = { ...half, length: ticks(144) };
    expect(notesOf("5 2:8", long)[0]?.start).toBe(96);
  });

  test("no text is no notes", () => expect(notesOf("  ")).toEqual([]));
});

describe("N4 what is wrong is said where it stands", () => {
  test.each([
    ["2:10", 0, /on which beat/],
    ["3", 0, /What is played/],
    ["3 3.5 2:10", 0, /What is played/],
    ["2.5 2:10", 0, /goes from beat 3 to 5/],
    ["5 2:10", 0, /goes from beat 3 to 5/],
    ["4 2:10 3 2:8", 7, /go forward/],
    ["3 7:10", 2, /Strings go from 6/],
    ["3 2:25", 2, /Frets go up to 24/],
    ["3 2:23", 2, /not on this neck/],
    ["3 2-10", 2, /string and fret/],
    ["3 2:10+2:8", 7, /two notes at once/],
    ["3 2:10/1 3.5 2:8", 13, /lasts longer/],
    ["4 2:10/2", 2, /beyond the fill/],
    ["3 2:10/x", 2, /how many beats/],
    ["3 h2:10", 2, /goes on from a note before it on string 2/],
    ["3 2:10 4 h2:10", 9, /goes up, and the note before is on fret 10/],
    ["3 2:10 4 p2:12", 9, /goes down/],
    ["3 2:10 4 s2:10", 9, /another fret/],
    ["3 b2:10", 2, /up 0.5 to 4 semitones/],
    ["3 b2:10^5", 2, /up 0.5 to 4 semitones/],
    ["3 2:10^1", 2, /after a bend/],
  ])("%j", (text, column, words) => {
    const read = parseFillText(text, half, defaultSetup);
    if (read.ok) throw new Error("this is no fill");
    expect(read.error.column).toBe(column);
    expect(read.error.words).toMatch(words);
  });

  test("with what was meant, where there is a guess", () => {
    const meant = (text: string) => {
      const read = parseFillText(text, half, defaultSetup);
      return read.ok ? undefined : read.error.meant;
    };
    expect(meant("3 2:10^1")).toBe("b2:10^1");
    expect(meant("3 b2:10")).toBe("b2:10^1");
    expect(meant("2:10")).toBe("3 2:10");
  });
});

test("N5 printing writes no more than is needed", () => {
  expect(rewritten("3 2:10 3.5 1:8/½ 4& 2:10+1:10*")).toBe("3 2:10  3.5 1:8/0.5  4.5 2:10+1:10*");
});

test("N5 what is printed reads back", () => {
  const grid = [ticks(12), ticks(16), ticks(24), ticks(48)];
  const pluck = fc.record({
    string: fc.constantFrom(...stringNumbers),
    fret: fc.integer({ min: 0, max: 22 }).map(fret),
    bend: fc.constantFrom(0, 0.5, 1, 2.5),
    letRing: fc.boolean(),
    share: fc.constantFrom(0.5, 1),
  });
  const fill = fc.tuple(
    fc.constantFrom(...grid),
    fc.uniqueArray(fc.nat(7), { minLength: 1 }),
    fc.array(pluck, { minLength: 8, maxLength: 8 }),
    fc.constantFrom(48, 72, 96).map(ticks),
  );
  fc.assert(
    fc.property(fill, ([step, places, plucks, beat]) => {
      const stretch = { start: ticks(48), length: ticks(step * 8), beat };
      const notes = places
        .sort((a, b) => a - b)
        .map((place, i): FillNote => {
          const { share, ...made } = plucks[i] ?? missing();
          const end = (places[i + 1] ?? 8) * step;
          const length = ticks((end - place * step) * share);
          const way = made.bend === 0 ? "pluck" : "bend";
          return { start: ticks(place * step), length, way, ...made };
        });
      const text = printFillText(notes, stretch);
      expect(parseFillText(text, stretch, defaultSetup)).toEqual({ ok: true, value: notes });
    }),
  );
});

function missing(): never {
  throw new Error("a place for each note");
}
