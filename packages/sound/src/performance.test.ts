/** What is played when; how bands do it is common practice, no source. */
import type { Board } from "@halflap/board/board";
import { barId } from "@halflap/board/ids";
import { ticks } from "@halflap/theory/units";
import { timelineOf } from "@halflap/timeline/passages";
import { soundEvents } from "@halflap/timeline/sound-events";
import { describe, expect, test } from "vitest";
import { type Performance, performanceOf, wholeTune } from "./performance.ts";
import { charted, demoBoard, gripped, played } from "./test-support/boards.ts";

/** "kick 500": the drums and their times in milliseconds. */
function drumming(performance: Performance): readonly string[] {
  return performance.events.flatMap((event) =>
    event.kind === "drum" ? [`${event.drum} ${Math.round(event.start * 1000)}`] : [],
  );
}

function bassNotes(performance: Performance) {
  return performance.events.flatMap((event) => (event.kind === "bass" ? [event] : []));
}

function guitarNotes(performance: Performance) {
  return performance.events.flatMap((event) => (event.kind === "guitar" ? [event] : []));
}

/** The board with the lower lane as soft as can be, where strokes take their time. */
function softly(board: Board): Board {
  const bars = board.sections.flatMap((section) => section.bars);
  const dynamics = new Map(bars.map(({ id }) => [id, "pp"] as const));
  return { ...board, lanes: { ...board.lanes, lower: { ...board.lanes.lower, dynamics } } };
}

const still = { countIn: 0 };

describe("H7 strokes", () => {
  const spreads = (board: Board) =>
    guitarNotes(played(board, still)).map(({ string, start }) => [string, start] as const);

  test("H7 a downstroke starts with the lowest string on its time", () => {
    const notes = spreads(gripped(charted("F, 120", "| F7 |"), "lower", "x-x-3-2-4-x", "D......."));
    expect(notes.map(([string]) => string)).toEqual([4, 3, 2]);
    const [first, second, third] = notes.map(([, start]) => start);
    expect(first).toBe(0);
    const step = second ?? 0;
    expect(step).toBeGreaterThan(0.003);
    expect(step).toBeLessThan(0.008);
    expect(third).toBeCloseTo(2 * step, 9);
  });

  test("H7 an upstroke starts with the highest", () => {
    const notes = spreads(gripped(charted("F, 120", "| F7 |"), "upper", "x-x-3-2-4-x", "..U....."));
    expect(notes.map(([string]) => string)).toEqual([2, 3, 4]);
    expect(notes[0]?.[1]).toBe(0.5);
  });

  test("H7 accents go faster, full grips get less a string", () => {
    const hits = (grip: string, steps: string) =>
      guitarNotes(played(gripped(charted("F, 120", "| F7 |"), "lower", grip, steps), still));
    const [plain, accent] = ["D.......", ">D......."].map((steps) => hits("x-x-3-2-4-x", steps));
    expect(accent?.[1]?.start).toBeLessThan(plain?.[1]?.start ?? 0);
    const full = hits("1-3-1-2-1-1", "D.......");
    expect(full[0]?.velocity).toBeLessThan(plain?.[0]?.velocity ?? 0);
    expect(plain?.[0]?.velocity).toBeCloseTo(0.64, 9);
  });
});

describe("H7 however fast", () => {
  test("H7 a stroke is over before the next begins", () => {
    const chart = charted("F, 400", "| F7 |");
    const loud = gripped(chart, "lower", "1-3-1-2-1-1", "DUDUDUDUDUDUDUDU", 12);
    const board = softly(loud);
    const notes = guitarNotes(played(board, { countIn: 0, tempoFactor: 1.5 }));
    expect(notes).toHaveLength(96);
    for (const { start, end } of notes) expect(end).toBeGreaterThan(start);
    const sixteenth = 60 / 600 / 4;
    for (const [index, { start }] of notes.slice(0, 90).entries()) {
      expect(Math.floor(start / sixteenth + 1e-6)).toBe(Math.floor(index / 6));
    }
  });
});

describe("H8 guitars", () => {
  test("H8 every sounding note of the demo is played once, at its time", () => {
    const { upper, lower } = demoBoard.lanes;
    const setups = { upper: upper.setup, lower: lower.setup };
    const sounding = soundEvents(timelineOf(demoBoard), setups);
    const performance = played(demoBoard, still);
    const notes = guitarNotes(performance);
    expect(notes).toHaveLength(sounding.length);
    // 104 beats a minute: a quarter of 48 ticks lasts 60/104 s.
    const name = (lane: string, string: number, pitch: number) => `${lane} ${string} ${pitch}`;
    const left = new Map<string, number[]>();
    for (const { lane, string, pitch, start } of sounding) {
      const key = name(lane, string, pitch);
      left.set(key, [...(left.get(key) ?? []), (start / 48) * (60 / 104)]);
    }
    for (const { part, string, pitch, start, end } of notes) {
      const times = left.get(name(part, string, pitch)) ?? [];
      const found = times.findIndex((time) => start >= time - 1e-9 && start < time + 0.04);
      expect(found, `${part} ${string} ${start}`).toBeGreaterThanOrEqual(0);
      times.splice(found, 1);
      expect(end).toBeGreaterThanOrEqual(start);
    }
  });

  test("H8 events come by start, and no string sounds two notes at once", () => {
    const { events } = played(demoBoard);
    const starts = events.map(({ start }) => start);
    expect(starts).toEqual([...starts].sort((a, b) => a - b));
    const ends = new Map<string, number>();
    for (const { part, string, start, end } of guitarNotes(played(demoBoard))) {
      const key = `${part} ${string}`;
      expect(start).toBeGreaterThanOrEqual((ends.get(key) ?? 0) - 1e-9);
      ends.set(key, end);
    }
  });

  test("H8 H4 a note that another follows at once is followed, not ended", () => {
    const board = gripped(charted("F, 120", "| F7 |"), "lower", "x-x-3-x-x-x", "D...D...");
    const [first, second] = guitarNotes(played(board, still));
    expect([first?.follows, second?.follows]).toEqual([false, true]);
    expect(first?.end).toBe(second?.start);
  });
});

describe("H9 bass", () => {
  const pitches = (bars: string, heading = "F, 120") =>
    bassNotes(played(charted(heading, bars), still)).map(({ pitch, start }) => [pitch, start]);

  test("H9 roots from E1 up, struck again every two beats", () => {
    // E1 is MIDI note 28, the lowest string of a bass: handbook value.
    expect(pitches("| E | Eb |")).toEqual([
      [28, 0],
      [28, 1],
      [39, 2],
      [39, 3],
    ]);
  });

  test("H9 slash basses, so that a written walk is walked", () => {
    expect(pitches("| F F/A Bb Bdim7 |").map(([pitch]) => pitch)).toEqual([29, 33, 34, 35]);
  });

  test("H9 nothing at N.C., nothing without a bass player, one a bar in three", () => {
    expect(pitches("| N.C. |")).toEqual([]);
    expect(pitches("| F |", "F, 120, no bass")).toEqual([]);
    expect(pitches("| F | C |", "F, 120, 3/4").map(([pitch]) => pitch)).toEqual([29, 36]);
  });
});

describe("H10 drums", () => {
  const beats = (heading: string, bars = "| F |") =>
    drumming(played(charted(heading, bars), still));

  test("H10 straight: kick on one and three, snare on two and four, eighths", () => {
    const strokes = beats("F, 120");
    expect(strokes.filter((stroke) => !stroke.startsWith("hat"))).toEqual([
      "kick 0",
      "snare 500",
      "kick 1000",
      "snare 1500",
    ]);
    expect(strokes.filter((stroke) => stroke.startsWith("hat"))).toHaveLength(8);
  });

  test("H10 H13 swing: a ride whose skips fall on the last triplet", () => {
    const strokes = beats("F, 120, swing");
    const ride = strokes.filter((stroke) => stroke.startsWith("ride"));
    expect(ride).toEqual(["ride 0", "ride 500", "ride 833", "ride 1000", "ride 1500", "ride 1833"]);
    expect(strokes.filter((stroke) => stroke.startsWith("foot"))).toEqual([
      "foot 500",
      "foot 1500",
    ]);
  });

  test("H10 H13 shuffle: swung hats over the backbeat", () => {
    const strokes = beats("F, 120, shuffle");
    expect(strokes.filter((s) => s.startsWith("hat")).slice(0, 3)).toEqual([
      "hat 0",
      "hat 333",
      "hat 500",
    ]);
    expect(strokes).toContain("snare 500");
  });

  test("H10 three and six", () => {
    const waltz = beats("F, 120, 3/4").filter((stroke) => !stroke.startsWith("hat"));
    expect(waltz).toEqual(["kick 0", "snare 500", "snare 1000"]);
    // Two dotted quarters in 6/8, at 120 of them a minute.
    const six = beats("F, 120, 6/8");
    expect(six.filter((stroke) => !stroke.startsWith("hat"))).toEqual(["kick 0", "snare 500"]);
    expect(six.filter((stroke) => stroke.startsWith("hat"))).toHaveLength(6);
  });

  test.each([24, 28, 31, 32, 36])(
    "H13 %i ticks to the off-beat: strokes there, bars as long",
    (long) => {
      const chart = charted("F, 120, swing", "| F7 |");
      const board = gripped(chart, "lower", "x-x-3-x-x-x", "DUDUDUDU");
      const timeline = timelineOf(board, ticks(long));
      const options = { ...wholeTune(board, timeline), countIn: 0, rounds: 2 };
      const performance = performanceOf(board, timeline, options);
      // 120 quarters a minute, 48 000 samples a second: a tick of 48 a quarter lasts 500 samples.
      const samples = (events: readonly { readonly start: number }[]) =>
        events.map(({ start }) => Math.round(start * 48_000));
      const bar = (from: number) =>
        [0, 1, 2, 3].flatMap((beat) => [from + beat * 24_000, from + beat * 24_000 + long * 500]);
      expect(samples(guitarNotes(performance))).toEqual([...bar(0), ...bar(96_000)]);
      const ride = performance.events.filter(
        (each) => each.kind === "drum" && each.drum === "ride",
      );
      expect(samples(ride)[2]).toBe(24_000 + long * 500);
      expect(performance.end).toBe(4);
      const straight: Board = { ...board, feel: "straight" };
      const even = performanceOf(straight, timelineOf(straight, ticks(long)), options);
      expect(samples(guitarNotes(even))).toEqual(
        Array.from({ length: 16 }, (_, index) => index * 12_000),
      );
    },
  );

  test("H13 six eighths never swing", () => {
    const hats = beats("F, 120, 6/8, swing").filter((stroke) => stroke.startsWith("hat"));
    expect(hats.slice(0, 3)).toEqual(["hat 0", "hat 167", "hat 333"]);
  });

  test("H10 H9 in a stop the band hits one", () => {
    const board = charted("F, 120", "| F . C . |");
    const [bar] = board.sections.flatMap(({ bars }) => bars);
    const stop: Board = { ...board, aims: new Map([[bar?.id ?? barId("x"), ["stop"]]]) };
    expect(drumming(played(stop, still))).toEqual(["kick 0", "ride 0"]);
    expect(bassNotes(played(stop, still))).toHaveLength(1);
  });
});

describe("H11 H12 counting and bars", () => {
  const clicks = (performance: Performance, part: string) =>
    performance.events.flatMap((event) =>
      event.kind === "click" && event.part === part ? [[event.start, event.isFirst]] : [],
    );

  test("H11 a bar is counted in, then clicked", () => {
    const performance = played(charted("F, 120", "| F |"), { countIn: 1 });
    const bar = (at: number) => [0, 0.5, 1, 1.5].map((beat) => [at + beat, beat === 0]);
    expect(clicks(performance, "count-in")).toEqual(bar(0));
    expect(clicks(performance, "click")).toEqual(bar(2));
    expect(performance.musicStart).toBe(2);
    expect(performance.end).toBe(4);
  });

  test("H11 a bar of its own length is clicked as long as it is", () => {
    const performance = played(charted("F, 120", "| 2/4 F | C |"), { countIn: 1 });
    expect(clicks(performance, "count-in")).toHaveLength(2);
    expect(clicks(performance, "click")).toHaveLength(6);
  });

  test("H12 any bars, any rounds, any tempo", () => {
    const board = charted("F, 120", "| F | C | Bb | G |");
    const some = { range: { first: 1, last: 2 }, rounds: 3, tempoFactor: 0.5, countIn: 1 };
    const performance = played(board, some);
    expect(bassNotes(performance).map(({ pitch }) => pitch)).toEqual([
      36, 36, 34, 34, 36, 36, 34, 34, 36, 36, 34, 34,
    ]);
    expect(performance.bars.map(({ index, round, start }) => [index, round, start])).toEqual([
      [1, 0, 4],
      [2, 0, 8],
      [1, 1, 12],
      [2, 1, 16],
      [1, 2, 20],
      [2, 2, 24],
    ]);
    expect(clicks(performance, "count-in")).toHaveLength(4);
    expect(performance.end).toBe(28);
  });

  test("H12 what rings ends with the round, but in the last", () => {
    const board = gripped(charted("F, 120", "| F7 | F7 |"), "lower", "x-x-3-2-4-x");
    const looped = played(board, { range: { first: 0, last: 0 }, rounds: 2, countIn: 0 });
    const ends = guitarNotes(looped).map(({ end }) => end);
    expect(Math.max(...ends.slice(0, 3))).toBeLessThan(2.05);
    expect(Math.min(...ends.slice(3))).toBeGreaterThanOrEqual(4);
  });

  test("H12 a tempo out of bounds is refused", () => {
    const board = charted("F, 120", "| F |");
    expect(() => played(board, { tempoFactor: 0.39 })).toThrow("too slow or fast");
    expect(() => played(board, { tempoFactor: 1.51 })).toThrow("too slow or fast");
  });

  test("H12 a form without bars is silent", () => {
    const board = charted("F, 120", "| F |");
    expect(played({ ...board, form: [], sections: [] }).events).toEqual([]);
  });
});
