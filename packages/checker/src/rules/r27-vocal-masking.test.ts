/** R27: strokes in the sung range, and the melody played along. Limits ours. */
import type { SungNote } from "@halflap/board/singing";
import { midiNote, ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

/** Tops: C5 (72) in the upper lane, G3 (55) in the lower. */
const bar: Played = ["C", "x-x-x-x-8-8", "x-3-2-0-x-x"];
const range = (low: number, high: number) => ({ low: midiNote(low), high: midiNote(high) });
const voice = { lane: undefined, type: undefined, range: range(55, 60) };
const phrases = [{ bar: 1, beat: 1, beats: 4 }];

function masking(more: Partial<SmallBoard>) {
  return check(smallBoard({ sections: bars(bar, bar), voice, phrases, ...more })).filter(
    ({ rule }) => rule === "R27",
  );
}

describe("R27 strokes in the sung range", () => {
  test.each([
    ["D..U..D..U..D...", 1.25, undefined],
    ["DDDDDD..", 1.5, "look"],
    ["DUDUDUDU.D......", 2.25, "look"],
    ["DUDUDUDUDU......", 2.5, "fix"],
  ])("R27 %s: %d strokes a beat", (text, measured, severity) => {
    const found = masking({ strums: { lower: text } });
    expect(found.map((finding) => [finding.measured, finding.severity])).toEqual(
      severity === undefined ? [] : [[measured, severity]],
    );
  });

  test.each([
    ["4/4", { beats: 4, unit: 4 }, "D.D.D.D.D.D.D.D.", "2 strokes a beat"],
    ["2/2", { beats: 2, unit: 2 }, "D.D.D.D.D.D.D.D.", "2 strokes a quarter note"],
    ["6/8", { beats: 6, unit: 8 }, "D.D.D.D.D.D.", "2 strokes a quarter note"],
  ] as const)("R27 eighths are as busy in %s as anywhere", (_name, meter, lower, words) => {
    const sung = [{ bar: 1, beat: 1, beats: meter.unit === 4 ? 4 : 2 }];
    const [finding] = masking({ meter, strums: { lower }, phrases: sung });
    expect(finding).toMatchObject({ severity: "look", measured: 2 });
    expect(finding?.words).toContain(words);
  });

  test("R27 counts a lane whose top note is in the range, both ends included", () => {
    const strums = { upper: "DUDUDUDU", lower: "DUDUDUDU" };
    expect(masking({ strums })).toMatchObject([
      {
        ...{ lanes: ["lower"], measured: 2, threshold: 1.5 },
        notes: [{ lane: "lower", slot: "s1", pitch: 55 }],
        words: "The lower lane is busy right where the voice sits, 2 strokes a beat.",
      },
    ]);
    expect(masking({ strums, voice: { ...voice, range: range(56, 71) } })).toEqual([]);
    expect(masking({ strums, voice: { ...voice, range: range(55, 72) } })).toMatchObject([
      { severity: "fix", measured: 4, lanes: ["upper", "lower"] },
    ]);
  });

  test("R27 takes the voice type where no range is known, and nothing where neither is", () => {
    const strums = { lower: "DUDUDUDU" };
    const typed = (type: "tenor" | "alto") => ({ ...voice, range: undefined, type });
    expect(masking({ strums, voice: typed("tenor") })).toHaveLength(1);
    const above: Played = ["C", "x-x-x-x-8-8", "x-3-x-x-x-x"];
    expect(masking({ sections: bars(above), strums, voice: typed("alto") })).toEqual([]);
    expect(masking({ strums, voice: { ...voice, range: undefined } })).toEqual([]);
  });

  test("R27 measures over all that is sung in the passage", () => {
    const strums = { lower: { 1: "DUDUDUDU", 2: "D......." } };
    const both = [...phrases, { bar: 2, beat: 1, beats: 4 }];
    expect(masking({ strums })).toHaveLength(1);
    expect(masking({ strums, phrases: both })).toEqual([]);
  });

  test("R27 not for palm mutes, ghosts, or chords held for two beats", () => {
    expect(masking({ strums: { lower: "DUDUDUDU" }, palmMutes: { lower: [1] } })).toEqual([]);
    expect(masking({ strums: { lower: "dududuDu" } })).toEqual([]);
    const short = { limits: { maskLook: 0.25 } };
    expect(masking({ ...short, strums: { lower: "D...D..." } })).toEqual([]);
    expect(masking({ ...short, strums: { lower: "D..xD..x" } })).toMatchObject([{ measured: 0.5 }]);
    expect(masking({ ...short, strums: { lower: "D..D...." } })).toMatchObject([
      { measured: 0.25 },
    ]);
  });

  test("R27 counts the notes of a line, a double stop once", () => {
    const notes = [0, 0.5, 1, 1.5, 2, 2.5].flatMap(
      (beats) =>
        [
          [beats, "4:5"],
          [beats, "3:2"],
        ] as const,
    );
    const line = { bar: 1, beat: 1, beats: 4, kind: "line", notes } as const;
    expect(masking({ fills: { lower: [line] } })).toMatchObject([{ measured: 1.5 }]);
  });
});

describe("R27 the melody played along", () => {
  const sung = (...pitches: readonly number[]): readonly SungNote[] =>
    pitches.map((pitch, index) => ({
      start: ticks(index * 48),
      length: ticks(48),
      pitch: midiNote(pitch),
    }));
  const along = (melody: readonly SungNote[], more: Partial<SmallBoard> = {}) => {
    const notes = [
      [0, "2:8"],
      [1, "2:10"],
      [2, "2:12"],
    ] as const;
    const fills = { upper: [{ bar: 1, beat: 1, beats: 4, kind: "line", notes } as const] };
    return masking({ fills, phrases: [{ bar: 1, beat: 1, beats: 4, melody }], ...more });
  };

  test("R27 three notes in a row are a fix, two are not", () => {
    expect(along(sung(67, 69, 71))).toMatchObject([
      {
        ...{ severity: "fix", measured: 3, threshold: 3, lanes: ["upper"] },
        words: "The upper lane plays the sung melody along, note for note.",
      },
    ]);
    expect(along(sung(67, 69, 72))).toEqual([]);
    expect(along(sung(67, 70, 71))).toEqual([]);
  });

  test("R27 another octave is not the melody, and a unison that is meant is none", () => {
    expect(along(sung(55, 57, 59))).toEqual([]);
    expect(along(sung(67, 69, 71), { aims: { 1: ["unison"] } })).toEqual([]);
  });

  test("R27 one note again and again is a chord under the voice", () => {
    const more = { fills: {}, strums: { upper: "D.D.D.D." } };
    expect(along(sung(72, 72, 72, 72), more)).toEqual([]);
  });
});
