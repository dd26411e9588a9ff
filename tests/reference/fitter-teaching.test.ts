/**
 * What a teacher would ask of a fitted part. Guide tones in ii-V-I and in a chain of dominants:
 * Mark Levine, The Jazz Theory Book, 1995, from memory; V7/V to V7: worked out from the tones of
 * the chords, as is what G and Em have in common; the bass behind a slash: common practice, no
 * source.
 */
import { type Board, type LaneId, laneIds } from "@halflap/board/board";
import { draftCopy, parseChartText } from "@halflap/board/chart-text";
import type { LaneWishes } from "@halflap/board/wishes";
import { fit } from "@halflap/fitter/fit";
import type { SoundingChord } from "@halflap/theory/chord";
import { gripPitches } from "@halflap/theory/grip";
import { threadsBetween } from "@halflap/theory/threads";
import { type MidiNote, pitchClass } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { boardOfCopy } from "../support/copies.ts";
import { simd } from "../support/kernel.ts";

type Sounding = { readonly chord: SoundingChord; readonly pitches: readonly MidiNote[] };

function boardFor(chart: string, wishes: Partial<LaneWishes> = {}): Board {
  const read = parseChartText(chart);
  if (read.draft === undefined) throw new Error(read.problems[0]?.words);
  let made = 0;
  const makeId = () => `id${made++}`;
  const board = boardOfCopy(draftCopy(read.draft, makeId));
  const { lower } = board.lanes;
  const wished = { ...lower, wishes: { ...lower.wishes, ...wishes } };
  return { ...board, ending: "last chord held", lanes: { ...board.lanes, lower: wished } };
}

/** The lower lane fitted by itself, chord by chord. */
function fitted(chart: string, wishes: Partial<LaneWishes> = {}): readonly Sounding[] {
  return answersFor(boardFor(chart, wishes), ["lower"], 1)[0] ?? [];
}

/** What the lanes that are fitted sound together in each answer, chord by chord. */
function answersFor(
  board: Board,
  lanes: readonly LaneId[],
  answers: number,
): readonly (readonly Sounding[])[] {
  const request = { lanes, leaning: "plain", answers, bars: undefined } as const;
  const result = fit(board, request, { minPlus: simd() });
  if (result.kind !== "answers") throw new Error(result.words);
  const slots = board.sections.flatMap(({ bars }) => bars.flatMap((bar) => bar.slots));
  return result.answers.map(({ parts }) =>
    slots.map(({ id, chord }) => {
      if (chord?.kind !== "chord") throw new Error("each chord is read");
      const pitches = parts.flatMap(({ lane, grips }) => {
        const grip = grips.get(id);
        if (grip === undefined) throw new Error("each chord is played");
        return gripPitches(grip, board.lanes[lane].setup);
      });
      return { chord, pitches };
    }),
  );
}

/** The pitches of a grip that sound a degree of its chord, one at least. */
function of({ chord, pitches }: Sounding, ...degrees: readonly string[]): readonly number[] {
  const classes = chord.tones.filter(({ degree }) => degrees.includes(degree));
  const found = pitches.filter((pitch) =>
    classes.some((tone) => tone.pitchClass === pitchClass(pitch)),
  );
  if (found.length === 0) throw new Error(`${chord.symbol} sounds none of ${degrees.join()}`);
  return found;
}

const thirds = ["3", "b3"];
const sevenths = ["7", "b7"];
const threeStrings: Partial<LaneWishes> = { stringsMin: 3, stringsMax: 3 };

describe("ii-V-I", () => {
  test.each([
    ["C", "Dm7 | G7 | Cmaj7"],
    ["F", "Gm7 | C7 | Fmaj7"],
    ["Bb", "Cm7 | F7 | Bbmaj7"],
  ])("keeps the guide tones within a semitone in %s", (key, chords) => {
    const [two, five, one] = fitted(`Teaching\n${key}, 100\n\nA\n| ${chords} |`, threeStrings);
    if (two === undefined || five === undefined || one === undefined) throw new Error("three");
    // The third stays as the seventh, and the seventh falls a semitone to the third.
    expect(of(five, ...sevenths)).toEqual(of(two, ...thirds));
    expect(of(five, ...thirds)).toEqual(of(two, ...sevenths).map((pitch) => pitch - 1));
    expect(of(one, ...sevenths)).toEqual(of(five, ...thirds));
    expect(of(one, ...thirds)).toEqual(of(five, ...sevenths).map((pitch) => pitch - 1));
  });
});

describe("a chain of dominants", () => {
  test("alternates third and seventh, both a semitone down each time", () => {
    const chain = fitted("Teaching\nF, 100\n\nA\n| A7 | D7 | G7 | C7 |", threeStrings);
    for (const [index, next] of chain.entries()) {
      const before = chain[index - 1];
      if (before === undefined) continue;
      expect(of(next, "b7")).toEqual(of(before, "3").map((pitch) => pitch - 1));
      expect(of(next, "3")).toEqual(of(before, "b7").map((pitch) => pitch - 1));
    }
  });
});

describe("V7/V to V7", () => {
  test("on one set of strings holds one tone and moves two by a semitone", () => {
    const wishes: Partial<LaneWishes> = { stringSets: [[4, 3, 2]], highestFret: undefined };
    const [five, one] = fitted("Teaching\nF, 100\n\nA\n| G7 | C7 |", wishes);
    const threads = threadsBetween(pitchesOf(five), pitchesOf(one));
    expect(threads.pairs.map(({ motion }) => Math.abs(motion)).sort()).toEqual([0, 1, 1]);
    expect(threads.held).toBe(1);
  });
});

describe("a bass behind a slash", () => {
  test.each([
    ["a bass that walks down, round and round", "C | G/B | Am | Am/G | F | C/E | Dm7 | G7", ""],
    ["a fifth in the bass", "C9/G | F | C7/G | F", "last chord held"],
  ])("lies lowest of both parts where nobody plays bass: %s", (_, chords, ending) => {
    const board = boardFor(`Teaching\nC, 100, no bass\n\nA\n| ${chords} |`);
    const [best = []] = answersFor({ ...board, ending }, laneIds, 1);
    const asked = best.filter(({ chord }) => chord.bassClass !== chord.rootClass);
    expect(asked.length).toBeGreaterThan(1);
    for (const { chord, pitches } of asked) {
      expect([chord.symbol, Math.min(...pitches) % 12]).toEqual([chord.symbol, chord.bassClass]);
    }
  });
});

describe("G and Em", () => {
  test("do not sound the same in any answer, though E colours G", () => {
    const board = boardFor("Teaching\nC, 100\n\nA\n| C | G | Am | Em | F | C | F | G |");
    const answers = answersFor({ ...board, ending: "" }, laneIds, 3);
    expect(answers).toHaveLength(3);
    for (const [, five, , three] of answers) {
      expect(classesOf(five)).not.toEqual(classesOf(three));
    }
  });
});

function classesOf(sounding: Sounding | undefined): ReadonlySet<number> {
  return new Set(pitchesOf(sounding).map(pitchClass));
}

function pitchesOf(sounding: Sounding | undefined): readonly MidiNote[] {
  if (sounding === undefined) throw new Error("a chord is missing");
  return sounding.pitches;
}
