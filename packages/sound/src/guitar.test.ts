/** Left-hand techniques, one note a string, and how the two guitars differ. */
import { describe, expect, test } from "vitest";
import { frequencyOf, seconds } from "./seconds.ts";
import { note, sounded } from "./test-support/one-note.ts";
import { centroidOf, centsFrom, levelOf, powerAt } from "./test-support/spectrum.ts";

const rate = 44100;

/** The middle string at the fifth fret, then another note half a second later. */
function joined(second: Parameters<typeof note>[0], length = 1.3): Float64Array {
  const first = note({ string: 3, pitch: 60, end: seconds(0.5) });
  const next = note({ string: 3, start: seconds(0.5), end: seconds(9), follows: true, ...second });
  return sounded([first, next], length);
}

describe("H4 on the way from note to note", () => {
  const ways = [
    ["hammer-on", 62],
    ["pull-off", 57],
    ["slide", 67],
  ] as const;
  test.each(ways)("H4 a %s arrives in tune and softer than picked", (technique, pitch) => {
    const heard = joined({ technique, pitch });
    const after = heard.slice(0.65 * rate, 1.25 * rate);
    expect(Math.abs(centsFrom(after, frequencyOf(pitch), rate))).toBeLessThan(2);
    const picked = joined({ pitch }).slice(0.65 * rate, 1.25 * rate);
    expect(levelOf(after, 0, 8000)).toBeLessThan(levelOf(picked, 0, 8000));
    expect(levelOf(after, 0, 8000)).toBeGreaterThan(0.1 * levelOf(picked, 0, 8000));
  });

  test("H4 a slide passes between its pitches, a hammer-on does not", () => {
    const [slide, hammer] = (["slide", "hammer-on"] as const).map((technique) =>
      powerAt(
        joined({ technique, pitch: 67 }).slice(0.52 * rate, 0.6 * rate),
        frequencyOf(63.5),
        rate,
      ),
    );
    expect(slide).toBeGreaterThan(3 * (hammer ?? 0));
  });

  test.each([0.5, 1, 2, 3])("H4 a bend of %d semitones goes that far", (bend) => {
    const heard = sounded([note({ string: 3, pitch: 62, technique: "bend", bend })], 1.2);
    const settled = heard.slice(0.3 * rate);
    expect(Math.abs(centsFrom(settled, frequencyOf(62 + bend), rate))).toBeLessThan(2);
  });

  test("H4 a bend moves without steps", () => {
    const heard = sounded([note({ string: 3, pitch: 62, technique: "bend", bend: 2 })], 0.6);
    const still = sounded([note({ string: 3, pitch: 62 })], 0.6);
    const roughness = (sound: Float64Array) => {
      // What lies above 12 kHz, where steps of the delay would splash.
      let sum = 0;
      for (let f = 12000; f < 20000; f += 37) sum += powerAt(sound.slice(1000, 9192), f, rate);
      return sum;
    };
    expect(roughness(heard)).toBeLessThan(4 * roughness(still));
  });

  test("H4 a slide from nowhere is picked where it ends", () => {
    const alone = sounded([note({ technique: "slide", pitch: 50, follows: true })], 0.5);
    expect(alone).toEqual(sounded([note({ technique: "pluck", pitch: 50 })], 0.5));
  });
});

describe("H5 strings", () => {
  test("H5 the note before is gone when the next is struck", () => {
    const heard = joined({ pitch: 64, technique: "pluck" }).slice(0.6 * rate, 1.2 * rate);
    const [old, fresh] = [60, 64].map((pitch) => powerAt(heard, frequencyOf(pitch), rate));
    expect(10 * Math.log10((fresh ?? 0) / (old ?? 1))).toBeGreaterThan(25);
  });

  test("H5 a guitar is the sum of its strings", () => {
    const notes = [note(), note({ string: 4, pitch: 52 }), note({ string: 1, pitch: 69 })];
    const together = sounded(notes, 0.3);
    const alone = notes.map((one) => sounded([one], 0.3));
    const largest = together.reduce((worst, value, i) => {
      const sum = alone.reduce((total, sound) => total + (sound[i] ?? 0), 0);
      return Math.max(worst, Math.abs(value - sum));
    }, 0);
    expect(largest).toBeLessThan(1e-9);
  });

  test("H5 what can no longer be heard is exactly nothing", () => {
    const heard = sounded([note({ end: seconds(0.1) })], 2);
    expect(levelOf(heard, 0, 4000)).toBeGreaterThan(0.01);
    expect(levelOf(heard, 80000, 88000)).toBe(0);
  });
});

describe("H6 two guitars", () => {
  test.each(["upper", "lower"] as const)("H6 an attack of the %s is no thud", (part) => {
    for (const [string, pitch] of [
      [6, 43],
      [4, 55],
      [1, 67],
    ] as const) {
      const heard = sounded([note({ part, string, pitch })], 0.4);
      const [attack, later] = [0, 0.2].map((from) =>
        centroidOf(heard.slice(from * rate, (from + 0.03) * rate), rate),
      );
      expect(attack).toBeGreaterThan(1.5 * (later ?? 0));
      expect(attack).toBeGreaterThan(900);
    }
  });

  test.each([50, 57, 64, 69])("H6 the upper is brighter and thinner at pitch %i", (pitch) => {
    const string = pitch > 60 ? 1 : 4;
    const [upper, lower] = (["upper", "lower"] as const).map((part) =>
      sounded([note({ part, string, pitch })], 0.5).slice(0, 16384),
    );
    if (upper === undefined || lower === undefined) throw new Error("both were rendered");
    expect(centroidOf(upper, rate)).toBeGreaterThan(1.3 * centroidOf(lower, rate));
    const ground = (sound: Float64Array) =>
      powerAt(sound, frequencyOf(pitch), rate) / levelOf(sound, 0, sound.length) ** 2;
    expect(ground(upper)).toBeLessThan(ground(lower));
  });
});
