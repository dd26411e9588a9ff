/** What is drawn and said of a bar: strokes by the beat, fills in place of them. */
import type { Bar, Lane } from "@halflap/board/board";
import { barId, fillId, sectionId, strumId } from "@halflap/board/ids";
import type { Fill, Strum } from "@halflap/board/playing";
import { parseStrumText } from "@halflap/board/strum-text";
import { fret, ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { beatName, beatSign, withFractions } from "./beat-name.ts";
import { playingFigure } from "./playing-figure.ts";
import { type BarMarks, playingText } from "./playing-text.ts";

const common = { beats: 4, unit: 4 } as const;
const verse = sectionId("verse");

function bar(id: string, rounds?: readonly number[]): Bar {
  return { id: barId(id), number: 1, length: ticks(192), rounds, slots: [] };
}
const bars = [bar("b1"), bar("b2", [1]), bar("b3", [2])];

function lane(
  text: string | undefined,
  fills: readonly Fill[] = [],
  rests: readonly string[] = [],
) {
  const read = parseStrumText(text ?? ".");
  if (!read.ok) throw new Error(read.error.words);
  const id = strumId("s1");
  const rhythm = { step: ticks(24), feel: "board", palmMute: false } as const;
  const strum: Strum = { id, name: "", ...rhythm, steps: read.value };
  const none = { sections: new Map(), bars: new Map(), passes: new Map() };
  const made: Pick<Lane, "strums" | "strumming" | "fills" | "layOuts"> = {
    strums: new Map([[id, strum]]),
    strumming: { lane: text === undefined ? undefined : id, ...none },
    fills: new Map(fills.map((fill) => [fill.id, fill])),
    layOuts: new Set(rests.map(barId)),
  };
  return made;
}

function fill(start: number, length: number, at = "b1"): Fill {
  const note = { string: 2, way: "pluck", bend: 0, letRing: false } as const;
  return {
    ...{ id: fillId(`f${start}`), bar: barId(at), start: ticks(start), length: ticks(length) },
    ...{ kind: "fill", together: false },
    notes: [
      { ...note, start: ticks(0), length: ticks(24), fret: fret(10) },
      { ...note, start: ticks(24), length: ticks(length - 24), fret: fret(12), way: "hammer-on" },
    ],
  };
}

const figure = (hands: ReturnType<typeof lane>, index = 0) =>
  playingFigure(hands, { id: verse, bars }, bars[index] ?? bar("b1"), common);
const plain: BarMarks = {
  ...{ dynamic: undefined, palmMute: false, letRing: false, aims: [], mark: "" },
  passes: [],
};
const text = (hands: ReturnType<typeof lane>, marks: Partial<BarMarks> = {}) =>
  playingText(figure(hands), { ...plain, ...marks }, common);

describe("what is drawn", () => {
  test("strokes stand at their share of the bar, a short pattern again and again", () => {
    expect(figure(lane("D.DU.UDU")).steps.map(({ at }) => at * 8)).toEqual([0, 2, 3, 5, 6, 7]);
    expect(figure(lane(".U")).steps.map(({ at }) => at * 8)).toEqual([1, 3, 5, 7]);
    expect(figure(lane("D".repeat(12))).steps).toHaveLength(8);
    expect(figure(lane(undefined)).steps).toEqual([]);
  });

  test("a fill silences the strokes for as long as it lasts", () => {
    const made = figure(lane("DUDUDUDU", [fill(96, 48)]));
    expect(made.steps.map(({ at }) => at * 8)).toEqual([0, 1, 2, 3, 6, 7]);
    expect(made.fills).toMatchObject([{ from: 0.5, to: 0.75 }]);
    expect(made.fills[0]?.notes.map(({ at }) => at)).toEqual([0.5, 0.625]);
    expect(made.fills[0]?.notes[1]?.from).toEqual({ at: 0.5, fret: 10 });
  });

  test("a fill goes on into the next bar, and from there into its own ending only", () => {
    const over = lane("D", [fill(144, 96)]);
    expect(figure(over, 1).fills).toMatchObject([{ from: 0, to: 0.25 }]);
    expect(figure(over, 2).fills).toMatchObject([{ from: 0, to: 0.25 }]);
    expect(figure(lane("D", [fill(144, 96, "b2")]), 2).fills).toEqual([]);
  });

  test("a number has room up to the next on its string or the end of what is drawn", () => {
    const sixteenths = (...strings: readonly (1 | 2)[]): Fill => ({
      ...fill(168, 24),
      notes: strings.map((string, index) => ({
        ...{ string, start: ticks(index * 12), length: ticks(12), fret: fret(10) },
        ...{ way: "pluck", bend: 0, letRing: false },
      })),
    });
    const rooms = (made: Fill, index = 0) =>
      figure(lane("D", [made]), index).fills.map(({ notes }) => notes.map(({ room }) => room * 16));
    expect(rooms(sixteenths(1, 1))).toEqual([[1, 1]]);
    expect(rooms(sixteenths(1, 2))).toEqual([[2, 1]]);
    const over = { ...sixteenths(1, 2, 1), length: ticks(48) };
    expect(rooms(over)).toEqual([[2, 1]]);
    expect(rooms(over, 1)).toEqual([[2]]);
  });

  test("who lays out plays neither", () => {
    const made = figure(lane("DUDU", [fill(96, 48)], ["b1"]));
    expect(made).toMatchObject({ rests: true, steps: [], fills: [] });
  });
});

describe("what is said", () => {
  test("strokes by the beat, with what is special about them", () => {
    expect(text(lane("D.DU.UDU"))).toBe("strokes on 1, 2, 2 and, 3 and, 4, 4 and");
    expect(text(lane(">D.d.x..~U"))).toBe("strokes on 1 accent, 2 ghost, 4 and push; choked on 3");
    expect(text(lane(undefined))).toBe("");
  });

  test("fills note by note, then the marks", () => {
    const marks = { dynamic: "p", palmMute: true, aims: ["lock"], mark: "stop on 1" } as const;
    expect(text(lane(undefined, [fill(96, 48)]), marks)).toBe(
      "fill on 3: string 2 fret 10, string 2 fret 12, hammer-on; soft from here; palm mute; " +
        "same strum; stop on 1",
    );
    expect(text(lane("D", [], ["b1"]))).toBe("lays out");
    expect(text(lane(undefined), { passes: ["2nd time: lays out"] })).toBe("2nd time: lays out");
  });

  // Counting aloud "1 e and a": common practice, no source.
  test("places as one counts them", () => {
    expect([0, 12, 24, 36].map((at) => beatName(at, 48))).toEqual(["1", "1 e", "1 and", "1 a"]);
    expect(beatName(72 + 24, 72)).toBe("2 second third");
    expect(beatName(6, 48)).toBe("1.13");
    expect([48, 60, 72, 84].map((at) => beatSign(at, 48))).toEqual(["2", "·", "&", "·"]);
    expect([0.5, 1, 1.25, 2 / 3, 1.1].map(withFractions)).toEqual(["½", "1", "1¼", "⅔", "1.1"]);
  });
});
