/** R34: chords without a grip, faults of the form, and entries that lost their place. */
import type { Bar, Board, Section } from "@halflap/board/board";
import { barId, fillId, slotId, strumId } from "@halflap/board/ids";
import { barLengthOf } from "@halflap/board/meter";
import { assert, ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

const both: Played = ["C", "x-x-x-5-5-3", "x-3-2-0-1-x"];
const open: Played = ["C", "x-x-x-5-5-3", "-"];

function gaps(board: Board) {
  return check(board).filter(({ rule }) => rule === "R34");
}

function found(sections: SmallBoard["sections"], more: Partial<SmallBoard> = {}) {
  return gaps(smallBoard({ sections, ...more }));
}

// Common practice, no source.
describe("R34 chords without a grip", () => {
  test("R34 bars in a row make one look, for the lane that has grips elsewhere", () => {
    expect(found(bars(both, open, open, both))).toMatchObject([
      {
        ...{ severity: "look", lanes: ["lower"], bars: ["b2", "b3"], notes: [], measured: 2 },
        words: "The lower lane has no grip yet for two chords in two bars.",
      },
    ]);
    expect(found(bars(open, both, open)).map((finding) => finding.bars)).toEqual([["b1"], ["b3"]]);
  });

  test("R34 names only the slots that wait", () => {
    expect(found([[[both, open]]])).toMatchObject([
      { slots: ["s2"], words: "The lower lane has no grip yet for this chord." },
    ]);
  });

  test("R34 not for a lane without any grip, and not where all have one", () => {
    expect(found(bars(open, open))).toEqual([]);
    expect(found(bars(both, both))).toEqual([]);
  });

  test("R34 not where the lane rests, nobody plays a chord, or a fill or line stands", () => {
    expect(found(bars(both, open), { layOuts: { lower: [2] } })).toEqual([]);
    expect(found(bars(both, ["N.C.", "x-x-x-5-5-3", "-"]))).toEqual([]);
    for (const kind of ["fill", "line"] as const) {
      const fills = { lower: [{ bar: 2, beat: 3, beats: 2, kind }] };
      expect(found(bars(both, open), { fills })).toEqual([]);
      expect(found([[[both], [open, both]]], { fills })).toMatchObject([{ slots: ["s2"] }]);
    }
  });

  test("R34 text that is no chord waits for a grip too", () => {
    expect(found(bars(both, ["?", "x-x-x-5-5-3", "-"]))).toHaveLength(1);
  });

  test("R34 what a section lacks in several passes is one finding", () => {
    expect(found(bars(both, open), { form: [0, 0, 0] })).toHaveLength(1);
  });
});

describe("R34 how a tune begins and ends", () => {
  test("R34 no ending is a note at the last chord of the form", () => {
    const sections = [...bars(both), ...bars(both, both)];
    const more = { ending: "" };
    expect(found(sections, { more, form: [1, 0] })).toMatchObject([
      { severity: "note", lanes: ["upper", "lower"], slots: ["s1"], measured: 0, threshold: 1 },
    ]);
    expect(found(sections, { more })).toMatchObject([{ slots: ["s3"] }]);
    expect(found(sections, { more: { ending: "ring" } })).toEqual([]);
  });

  test("R34 no count-in is a look at the first chord of the form, a bar of it nothing", () => {
    const sections = [...bars(both), ...bars(both, both)];
    expect(found(sections, { more: { countIn: 0 }, form: [1, 0] })).toMatchObject([
      { severity: "look", slots: ["s2"] },
    ]);
    expect(found(sections, { more: { countIn: 1 } })).toEqual([]);
  });

  test("R34 both in a tune of one chord are one finding, the graver first", () => {
    expect(found(bars(both), { more: { countIn: 0, ending: "" } })).toMatchObject([
      { severity: "look", words: /^Nobody counts in: [^;]+; how the tune ends is not agreed/ },
    ]);
  });

  test("R34 neither is asked for before somebody has chosen a grip", () => {
    const sections = bars(["C", "-", "-"]);
    expect(found(sections, { more: { countIn: 0, ending: "" } })).toEqual([]);
  });

  const shortened = (first: number, last: number) => {
    const board = smallBoard({ sections: bars(both, both, both) });
    const full = barLengthOf(board.meter);
    const lengths = [first, full, last];
    return withBars(board, (bar, index) => {
      const length = ticks(lengths[index] ?? full);
      return { ...bar, length, slots: bar.slots.map((slot) => ({ ...slot, length })) };
    });
  };

  test("R34 a pickup is taken off the last bar: a look where it is not", () => {
    expect(gaps(shortened(48, 192))).toMatchObject([
      { severity: "look", slots: ["s1"], measured: 1, threshold: 4 },
    ]);
    expect(gaps(shortened(48, 96))).toMatchObject([
      { severity: "look", slots: ["s1"], measured: 1, threshold: 4 },
    ]);
    expect(gaps(shortened(48, 144))).toEqual([]);
    expect(gaps(shortened(192, 144))).toEqual([]);
    expect(gaps(shortened(192, 192))).toEqual([]);
  });
});

describe("R34 rounds and endings", () => {
  /** A section of bars for these rounds, played so many times. */
  const rounded = (times: number, ...rounds: readonly (readonly number[] | undefined)[]) => {
    const board = smallBoard({ sections: bars(...rounds.map(() => both)) });
    const form = board.form.map((entry) => ({ ...entry, times }));
    return {
      ...withBars(board, (bar, index) => ({ ...bar, rounds: rounds[index] })),
      form,
    };
  };

  test("R34 a round without an ending of its own is a look at its last chord", () => {
    expect(gaps(rounded(3, undefined, [1], [2]))).toMatchObject([
      {
        ...{ severity: "look", lanes: ["upper", "lower"], slots: ["s1"] },
        words: "Round three of A has no ending of its own.",
      },
    ]);
  });

  test("R34 a first and second ending serve two rounds, or three when one is for two", () => {
    expect(gaps(rounded(2, undefined, [1], [2]))).toEqual([]);
    expect(gaps(rounded(3, undefined, [1, 2], [3]))).toEqual([]);
    expect(gaps(rounded(3, undefined, undefined))).toEqual([]);
  });

  test("R34 bars for some rounds in the middle are no endings", () => {
    expect(gaps(rounded(2, [1], undefined))).toEqual([]);
  });

  test("R34 a round without any bar is a look", () => {
    expect(gaps(rounded(2, [1], [1]))).toMatchObject([
      { severity: "look", words: "Round two of A has no bar to play." },
    ]);
  });

  test("R34 a round without bars and one without an ending are told apart", () => {
    const words = gaps(rounded(3, [1], [3])).map((finding) => finding.words);
    expect(words).toEqual(["Round two of A has no bar to play."]);
  });
});

describe("R34 a form that begins or ends with a section without bars", () => {
  const begins = (sections: SmallBoard["sections"], more: Partial<Board> = {}) =>
    found(sections, { more: { countIn: 0, ending: "", ...more } }).map(({ words }) => words);

  test.each([
    ["none is empty", [[[both]]]],
    ["the first is empty", [[], [[both]]]],
    ["the last is empty", [[[both]], []]],
  ])("R34 count-in and ending are asked for where %s", (_name, sections) => {
    const words = begins(sections).join(" ").toLowerCase();
    expect(words).toContain("nobody counts in");
    expect(words).toContain("how the tune ends");
  });
});

describe("R34 entries that lost their place", () => {
  test("R34 grips and marks for bars off the board are a note for their lane", () => {
    const lost = barId("gone");
    const plain = smallBoard({ sections: bars(both) });
    const { upper } = plain.lanes;
    const grip = upper.grips.get(slotId("s1"));
    assert(grip !== undefined, "the bar has a grip");
    const grips = new Map([...upper.grips, [slotId("gone"), grip]]);
    const strum = strumId("p");
    const lane = {
      ...upper,
      grips,
      layOuts: new Set([lost]),
      marks: new Map([[lost, "fill"]]),
      dynamics: new Map([[lost, "f"] as const]),
      palmMutes: new Set([lost]),
      letRings: new Set([lost]),
      strumming: { ...upper.strumming, bars: new Map([[lost, strum]]) },
    };
    expect(gaps({ ...plain, lanes: { ...plain.lanes, upper: lane } })).toMatchObject([
      { severity: "note", lanes: ["upper"], slots: ["s1"], measured: 7 },
    ]);
    expect(gaps(plain)).toEqual([]);
  });

  test("R34 a fill for a bar off the board is one of them", () => {
    const [id, bar] = [fillId("x"), barId("gone")];
    const fill = { id, bar, start: ticks(0), length: ticks(48) } as const;
    const fills = new Map([[id, { ...fill, kind: "fill", together: false, notes: [] } as const]]);
    const [finding] = found(bars(both), { laneMore: { lower: { fills } } });
    expect(finding?.words).toBe(
      "The lower lane still has a grip or mark for bars that are off the board.",
    );
  });
});

function withBars(board: Board, change: (bar: Bar, index: number) => Bar): Board {
  const sections = board.sections.map(
    (section): Section => ({ ...section, bars: section.bars.map(change) }),
  );
  return { ...board, sections };
}
