/** Lines inside a run of grips are found where they are, and nowhere else. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { lineNotesMin, lineWords, movingLines, type Voicing } from "./moving-lines.ts";
import { midiNote } from "./units.ts";

const run = (...voicings: number[][]): Voicing[] => voicings.map((each) => each.map(midiNote));

describe("T44 lines go one way by steps", () => {
  test("a chromatic descent between two voices that stay", () => {
    const lines = movingLines(run([50, 62, 65], [50, 61, 65], [50, 60, 65], [50, 59, 65]));
    expect(lines).toEqual([
      {
        voice: "inner",
        from: 0,
        to: 3,
        kind: "chromatic",
        direction: "down",
        notes: [62, 61, 60, 59],
      },
    ]);
    expect(lines[0] && lineWords(lines[0], 5, 8)).toBe(
      "chromatic descent in the middle voice, bars 5 to 8",
    );
  });

  test("a stepwise ascent on top, over a bass that falls", () => {
    const lines = movingLines(run([48, 64], [47, 65], [45, 67]));
    const told = lines.map((line) => lineWords(line, 1, 1));
    expect(told).toEqual([
      "stepwise ascent in the top voice, bar 1",
      "stepwise descent in the lowest voice, bar 1",
    ]);
  });

  test("a note may be held for one slot more, within the line only", () => {
    const held = movingLines(run([70], [70], [71], [71], [72], [72]));
    expect(held.map(({ from, to, notes }) => [from, to, notes])).toEqual([[1, 4, [70, 71, 72]]]);
    expect(movingLines(run([70], [71], [71], [71], [72]))).toEqual([]);
  });

  test("a note that waits long before it moves still begins a line", () => {
    const lines = movingLines(run([70], [70], [70], [70], [71], [72]));
    expect(lines.map(({ from, to }) => [from, to])).toEqual([[3, 5]]);
  });

  test("two notes, a leap, a turn and a rest make no line", () => {
    expect(movingLines(run([60], [61]))).toEqual([]);
    expect(movingLines(run([60], [61], [64]))).toEqual([]);
    expect(movingLines(run([60], [61], [60]))).toEqual([]);
    expect(movingLines(run([60], [61], [], [62]))).toEqual([]);
    expect(movingLines([])).toEqual([]);
  });

  test("one voice alone is the top, not the bass as well", () => {
    expect(movingLines(run([60], [62], [64])).map((line) => line.voice)).toEqual(["top"]);
  });

  test("every line steps its way through pitches that sound", () => {
    const voicing = fc.array(fc.integer({ min: 60, max: 68 }).map(midiNote), { maxLength: 4 });
    fc.assert(
      fc.property(fc.array(voicing, { maxLength: 12 }), (voicings) =>
        movingLines(voicings).every(({ from, to, notes, direction, kind }) => {
          const sizes = notes
            .slice(1)
            .map((note, index) => (note - (notes[index] ?? 0)) * (direction === "up" ? 1 : -1));
          const heard = voicings.slice(from, to + 1);
          return (
            notes.length >= lineNotesMin &&
            sizes.every((size) => size === 1 || (size === 2 && kind === "stepwise")) &&
            (kind === "chromatic" || sizes.includes(2)) &&
            heard.every((pitches) => pitches.some((pitch) => notes.includes(pitch))) &&
            heard[0]?.includes(notes[0] ?? midiNote(0)) === true &&
            heard.at(-1)?.includes(notes.at(-1) ?? midiNote(0)) === true
          );
        }),
      ),
      { numRuns: 500 },
    );
  });

  test("upside down, ascents are descents", () => {
    const voicing = fc.array(fc.integer({ min: 60, max: 68 }).map(midiNote), {
      minLength: 1,
      maxLength: 1,
    });
    fc.assert(
      fc.property(fc.array(voicing, { maxLength: 12 }), (voicings) => {
        const mirrored = voicings.map((each) => each.map((pitch) => midiNote(128 - pitch)));
        const spans = (lines: ReturnType<typeof movingLines>, way: "up" | "down") =>
          lines
            .filter((line) => line.direction === way)
            .map(({ from, to }) => `${from} ${to}`)
            .join();
        const [plain, turned] = [movingLines(voicings), movingLines(mirrored)];
        return (
          spans(plain, "up") === spans(turned, "down") &&
          spans(plain, "down") === spans(turned, "up")
        );
      }),
    );
  });
});
