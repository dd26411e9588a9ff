/** What ends a note and what lets it ring: common practice, no source. */
import type { Board } from "@halflap/board/board";
import { editedBoard } from "@halflap/board/edited-board";
import { ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { timelineOf } from "./passages.ts";
import { type SoundEvent, soundEvents } from "./sound-events.ts";
import {
  barOf,
  charted,
  filled,
  fillNote,
  gripped,
  pattern,
  slotsOf,
  strummed,
} from "./test-support/played-board.ts";

function heard(board: Board): readonly SoundEvent[] {
  const { upper, lower } = board.lanes;
  return soundEvents(timelineOf(board), { upper: upper.setup, lower: lower.setup });
}

/** "4 0-96": string, start and end of every note. */
function spans(board: Board): readonly string[] {
  return heard(board).map(({ string, start, end }) => `${string} ${start}-${end}`);
}

const oneBar = charted("| F7 |");
const twoBars = charted("| F7 | F7 |");
const fourBars = charted("| F7 | F7 | F7 | F7 |");

describe("S10 what is struck", () => {
  test("S10 a grip without a pattern sounds its strings once, from the lowest", () => {
    const events = heard(gripped(oneBar, "x-x-3-2-4-x"));
    expect(events.map(({ string, pitch }) => [string, pitch])).toEqual([
      [4, 53],
      [3, 57],
      [2, 63],
    ]);
    expect(events[0]).toMatchObject({ lane: "lower", stroke: "down", technique: "pluck", bend: 0 });
  });

  test("S10 a struck string ends the note before it", () => {
    const board = strummed(gripped(oneBar, "x-x-3-x-x-x"), pattern("D.D...U."));
    expect(spans(board)).toEqual(["4 0-48", "4 48-144", "4 144-528"]);
    expect(heard(board).map(({ stroke }) => stroke)).toEqual(["down", "down", "up"]);
  });

  test("S10 accents are louder, dynamics carry on, and nothing is louder than 1", () => {
    const plain = strummed(gripped(twoBars, "x-x-3-x-x-x x-x-3-x-x-x"), pattern("D...>D..."));
    const loud = editedBoard(plain, "lower", [
      { kind: "dynamic", bar: barOf(plain, 1), dynamic: "ff" },
    ]);
    const [usual, ff] = [heard(plain), heard(loud)].map((all) => all.map((one) => one.velocity));
    expect(usual?.[1]).toBeGreaterThan(usual?.[0] ?? 1);
    expect(ff?.[2]).toBeGreaterThan(usual?.[2] ?? 1);
    expect(Math.max(...(ff ?? [2]))).toBeLessThanOrEqual(1);
  });

  test("S10 palm-muted strokes say so, by the bar or by the pattern", () => {
    const grip = gripped(oneBar, "x-x-3-x-x-x");
    const byBar = editedBoard(grip, "lower", [
      { kind: "palm-mute", bar: barOf(grip, 1), on: true },
    ]);
    const byPattern = strummed(grip, pattern("D.......", { palmMute: true }));
    expect(heard(byBar)[0]?.technique).toBe("palm-mute");
    expect(heard(byPattern)[0]?.technique).toBe("palm-mute");
  });
});

describe("S11 what stops all strings", () => {
  test("S11 a choke ends every string of its lane and none of the other", () => {
    const both = gripped(gripped(oneBar, "0-x-x-x-3-x"), "x-x-3-x-x-x", "upper");
    const board = strummed(both, pattern("D..x...."));
    expect(spans(board)).toEqual(["4 0-384", "6 0-72", "2 0-72"]);
  });

  test("S11 a ghost stroke ends all and is short and soft itself", () => {
    const board = strummed(gripped(oneBar, "x-x-3-2-x-x"), pattern("D...d..."));
    const ghosts = heard(board).filter(({ technique }) => technique === "ghost");
    expect(spans(board)).toEqual(["4 0-96", "3 0-96", "4 96-102", "3 96-102"]);
    expect(ghosts.every(({ velocity }) => velocity < (heard(board)[0]?.velocity ?? 0))).toBe(true);
  });
});

describe("S12 when the hand leaves a grip", () => {
  test("S12 fretted notes end with the next grip, a common tone is held", () => {
    const grips = gripped(twoBars, "x-x-3-2-x-x x-x-3-4-x-x");
    const board = strummed(grips, pattern("....D..."));
    expect(spans(board)).toEqual(["4 96-288", "3 96-192", "4 288-672", "3 288-672"]);
  });

  test("S12 a slot without a grip lifts the hand: open strings ring on", () => {
    expect(spans(gripped(twoBars, "x-x-3-0-x-x -"))).toEqual(["4 0-192", "3 0-384"]);
  });

  test("S12 an open string ends when it is fretted or muted inside the next grip", () => {
    const late = pattern("....D...");
    const fretted = strummed(gripped(twoBars, "x-x-x-0-x-x x-x-x-2-x-x"), late);
    expect(spans(fretted)[0]).toBe("3 96-192");
    const inside = strummed(gripped(twoBars, "x-x-x-0-x-x x-x-2-x-3-x"), late);
    expect(spans(inside)[0]).toBe("3 96-192");
    const outside = strummed(gripped(twoBars, "x-x-x-0-x-x x-x-x-x-3-3"), late);
    expect(spans(outside)[0]).toBe("3 96-480");
  });

  test("S12 let ring: what was struck in the bar rings through the change", () => {
    const board = gripped(twoBars, "x-x-3-x-x-x x-x-x-x-4-x");
    const ringing = editedBoard(board, "lower", [
      { kind: "let-ring", bar: barOf(board, 1), on: true },
    ]);
    expect(spans(board)[0]).toBe("4 0-192");
    expect(spans(ringing)[0]).toBe("4 0-384");
  });

  test("S12 a push moves the hand when it is struck", () => {
    const board = gripped(twoBars, "x-x-3-2-x-x x-x-x-4-3-x");
    const pushed = strummed(board, pattern("D......~U"));
    const slot = slotsOf(board)[1];
    const early = heard(pushed).filter(({ start }) => start === 168);
    expect(early.map((event) => [event.string, event.slot])).toEqual([
      [3, slot],
      [2, slot],
    ]);
    expect(spans(pushed).slice(0, 2)).toEqual(["4 0-168", "3 0-168"]);
  });

  test("S12 a bar of rest stops nothing by itself", () => {
    const board = gripped(twoBars, "x-x-3-x-x-x x-x-5-x-x-x");
    const resting = editedBoard(board, "lower", [
      { kind: "lay-out", bar: barOf(board, 2), rest: true },
    ]);
    expect(spans(resting)).toEqual(["4 0-384"]);
  });
});

test("S13 nothing rings longer than two bars", () => {
  const board = gripped(fourBars, "x-x-x-0-x-x - - -");
  expect(spans(board)).toEqual(["3 0-384"]);
});

test("S14 passes follow one another, and strings ring across their border", () => {
  const chart = "A tune\nF, 100\n\nA\n| F7 |\n\nB\n| C7 |\n\nForm: A, B, A";
  const board = gripped(charted(chart), "x-x-3-x-x-x x-x-3-x-4-x");
  const late = strummed(board, pattern("..D....."));
  expect(spans(late)).toEqual(["4 48-240", "4 240-432", "2 240-384", "4 432-816"]);
});

describe("S15 notes of a fill", () => {
  const place = { bar: 1, start: 96, length: 96 };

  test("S15 last their length, or until the next on their string", () => {
    const notes = [fillNote(0, 24, "2:8"), fillNote(24, 24, "2:10", { way: "slide" })];
    const board = filled(oneBar, place, notes);
    expect(spans(board)).toEqual(["2 96-120", "2 120-144"]);
    expect(heard(board)[1]).toMatchObject({ technique: "slide", stroke: undefined, pitch: 69 });
  });

  test("S15 ring on where they are marked so", () => {
    const notes = [fillNote(0, 24, "2:8", { letRing: true }), fillNote(24, 24, "1:8")];
    expect(spans(filled(oneBar, place, notes))).toEqual(["2 96-480", "1 120-144"]);
  });

  test("S15 a bend starts at its fret and says how far it goes; slurs are softer", () => {
    const notes = [
      fillNote(0, 24, "3:7", { way: "bend", bend: 1.5 }),
      fillNote(24, 24, "3:5", { way: "pull-off" }),
    ];
    const [bend, slur] = heard(filled(oneBar, place, notes));
    expect(bend).toMatchObject({ pitch: 62, bend: 1.5, technique: "bend", fill: "fill-1-96" });
    expect(slur?.velocity).toBeLessThan(bend?.velocity ?? 0);
  });

  test("S15 swung eighths of a fill leave no hole between them", () => {
    const swing = charted("A tune\nF, 100, swing\n\nA\n| F7 |");
    const notes = [fillNote(0, 24, "2:8"), fillNote(24, 24, "1:8")];
    expect(spans(filled(swing, place, notes))[0]).toBe("2 96-128");
  });
});

const swungBars = charted("A tune\nF, 100, swing\n\nA\n| F7 | F7 |");

describe("S12 the hand goes to a grip when its slot is heard", () => {
  const board = gripped(
    charted("A tune\nF, 100, swing\n\nA\n| F7 . . . . C7 . . |"),
    "x-x-3-2-x-x x-x-2-3-x-x",
  );

  test("S12 a held grip lasts to the swung one after it", () => {
    expect(spans(board)).toEqual(["4 0-128", "3 0-128", "4 128-512", "3 128-512"]);
  });

  test("S12 a strummed grip too, though nothing is struck there", () => {
    const early = strummed(board, pattern("D......."));
    expect(spans(early)).toEqual(["4 0-128", "3 0-128"]);
    const straight = strummed(board, pattern("D.......", { feel: "straight" }));
    expect(spans(straight)).toEqual(["4 0-120", "3 0-120"]);
  });
});

test.each([
  ["over a bar line", 144, [0, 24, 48], ["2 144-176", "1 176-192", "2 192-240"]],
  ["to an off-beat of the next bar", 144, [0, 72], ["2 144-224", "1 224-248"]],
  ["inside a bar", 96, [0, 24, 48], ["2 96-128", "1 128-144", "2 144-192"]],
])("S15 swung notes of a fill join %s", (_, start, starts, wanted) => {
  const notes = starts.map((at, i) =>
    fillNote(at, (starts[i + 1] ?? 96) - at, i === 1 ? "1:8" : "2:8"),
  );
  expect(spans(filled(swungBars, { bar: 1, start, length: 96 }, notes))).toEqual(wanted);
});

test("S16 events come by start, the upper lane first, from string 6 to 1", () => {
  const both = gripped(gripped(oneBar, "x-x-3-2-x-x"), "x-x-x-x-8-8", "upper");
  expect(heard(both).map(({ lane, string }) => `${lane} ${string}`)).toEqual([
    "upper 2",
    "upper 1",
    "lower 4",
    "lower 3",
  ]);
});

test("S16 every stroke of swung thirty-seconds is heard, one after the other", () => {
  const swing = charted("A tune\nF, 100, swing\n\nA\n| F7 |");
  const fast = pattern("DU", { step: ticks(6) });
  const events = heard(strummed(gripped(swing, "x-x-3-x-x-x"), fast));
  expect(events.map(({ start }) => start)).toEqual(Array.from({ length: 32 }, (_, i) => i * 6));
  expect(events.slice(1).every(({ start }, i) => events[i]?.end === start)).toBe(true);
});
