/** Strings as they are heard, measured on sound by means that know nothing of the model. */
import { laneIds } from "@halflap/board/board";
import type { StringNumber } from "@halflap/theory/tuning";
import { describe, expect, test } from "vitest";
import { PluckedString } from "./plucked-string.ts";
import { frequencyOf, seconds } from "./seconds.ts";
import { note, sounded } from "./test-support/one-note.ts";
import { centroidOf, centsFrom, levelOf } from "./test-support/spectrum.ts";

const openStrings: readonly (readonly [StringNumber, number])[] = [
  [6, 40],
  [5, 45],
  [4, 50],
  [3, 55],
  [2, 59],
  [1, 64],
];
const frets = [0, 1, 2, 3, 5, 7, 9, 11, 12, 14, 17, 19, 22, 24];

describe("H1 in tune", () => {
  test("H1 the measure itself finds a tone that is 3 cents flat", () => {
    const flat = frequencyOf(69 - 0.03);
    const tone = Float64Array.from({ length: 40000 }, (_, i) =>
      Math.sin((2 * Math.PI * flat * i) / 44100),
    );
    expect(centsFrom(tone, 440, 44100)).toBeCloseTo(-3, 1);
  });

  // Equal temperament: f = 440 * 2^((m - 69) / 12), ISO 16:1975 for the 440 Hz.
  test.each([44100, 48000])("H1 every string and fret at %i Hz, both guitars", (rate) => {
    for (const part of laneIds) {
      for (const [string, open] of openStrings) {
        for (const fret of frets) {
          const pitch = open + fret;
          const heard = sounded([note({ part, string, pitch })], 0.8, rate).slice(0.05 * rate);
          const cents = centsFrom(heard, 440 * 2 ** ((pitch - 69) / 12), rate);
          expect(Math.abs(cents), `${part} ${string}:${fret}`).toBeLessThan(2);
        }
      }
    }
  });

  test("H1 the lower partials lie where a string's do", () => {
    for (const [string, pitch] of openStrings) {
      const heard = sounded([note({ string, pitch })], 0.8).slice(2000);
      for (const partial of [2, 3, 4]) {
        const cents = centsFrom(heard, partial * frequencyOf(pitch), 44100);
        expect(Math.abs(cents), `${string}, partial ${partial}`).toBeLessThan(6);
      }
    }
  });
});

/** By how many dB a sound is softer after a time than shortly after its start. */
function fallen(sound: Float64Array, after: number): number {
  const window = 0.05;
  const level = (from: number) => levelOf(sound, from * 44100, (from + window) * 44100);
  return 20 * Math.log10(level(0.02) / level(after));
}

describe("H2 fading", () => {
  test("H2 palm-muted is shorter than free, a ghost shorter than both", () => {
    const [free, muted, ghost] = (["pluck", "palm-mute", "ghost"] as const).map((technique) =>
      fallen(sounded([note({ technique })], 0.5), 0.15),
    );
    expect(muted).toBeGreaterThan((free ?? 0) + 8);
    expect(ghost).toBeGreaterThan((muted ?? 0) + 8);
  });

  test("H2 a high fret fades sooner than a low one, treble sooner than ground", () => {
    const low = sounded([note({ string: 1, pitch: 64 })], 1.2);
    const high = sounded([note({ string: 1, pitch: 83 })], 1.2);
    expect(fallen(high, 1)).toBeGreaterThan(fallen(low, 1));
    const [early, late] = [low.slice(0, 8192), low.slice(40000, 48192)];
    expect(centroidOf(late, 44100)).toBeLessThan(0.8 * centroidOf(early, 44100));
  });

  test("H2 a note that ends is damped within 200 ms, without a click", () => {
    const heard = sounded([note({ end: seconds(0.3) })], 0.6);
    const [before, after] = [levelOf(heard, 12000, 13000), levelOf(heard, 22050, 23050)];
    expect(20 * Math.log10(before / after)).toBeGreaterThan(50);
    const jump = (from: number, to: number) => {
      let largest = 0;
      for (let i = from; i < to; i += 1) {
        largest = Math.max(largest, Math.abs((heard[i] ?? 0) - (heard[i - 1] ?? 0)));
      }
      return largest;
    };
    expect(jump(13230, 22050)).toBeLessThanOrEqual(jump(10000, 13230) * 1.05);
  });

  test("H2 a struck string falls by 60 dB in the time its table says", () => {
    const string = new PluckedString(44100, 1);
    const decay = { fundamental: 1.5, treble: 1.5 };
    const struck = { frequency: 220, force: 1, pick: 0.5, edge: 400, scrape: 0 };
    string.strike({ ...struck, decay, carry: 0 });
    const heard = new Float64Array(44100);
    string.addTo(heard, heard.length);
    const level = (at: number) => levelOf(heard, at, at + 2205);
    const perSecond = (20 * Math.log10(level(4410) / level(37485))) / 0.75;
    expect(perSecond).toBeCloseTo(60 / 1.5, 0);
  });
});

describe("H3 brightness", () => {
  test("H3 nearer the bridge is brighter", () => {
    const picked = (pick: number) => {
      const string = new PluckedString(44100, 1);
      const decay = { fundamental: 3, treble: 0.8 };
      string.strike({ frequency: 196, force: 1, pick, edge: 4000, scrape: 0, decay, carry: 0 });
      const heard = new Float64Array(16384);
      string.addTo(heard, heard.length);
      return centroidOf(heard, 44100);
    };
    const [bridge, between, neck] = [0.06, 0.15, 0.35].map(picked);
    expect(bridge).toBeGreaterThan((between ?? 0) * 1.1);
    expect(between).toBeGreaterThan((neck ?? 0) * 1.03);
  });

  test("H3 harder is louder and brighter", () => {
    const [soft, hard] = [0.3, 0.9].map((velocity) => sounded([note({ velocity })], 0.4));
    if (soft === undefined || hard === undefined) throw new Error("both were rendered");
    expect(levelOf(hard, 0, 8192)).toBeGreaterThan(2 * levelOf(soft, 0, 8192));
    const [dull, bright] = [soft, hard].map((sound) => centroidOf(sound.slice(0, 8192), 44100));
    expect(bright).toBeGreaterThan((dull ?? 0) * 1.05);
  });
});
