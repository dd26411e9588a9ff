/** Bass, drums and click on their own. */
import { midiNote } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { makeBass } from "./bass.ts";
import { clickSound } from "./click.ts";
import { drumSound } from "./drums.ts";
import { type BassNote, drums } from "./play-event.ts";
import { slowStep } from "./plucked-string.ts";
import { frequencyOf, seconds } from "./seconds.ts";
import { centroidOf, centsFrom, levelOf } from "./test-support/spectrum.ts";

const rate = 44100;

describe("H9 the bass", () => {
  test.each([28, 33, 39])("H9 is in tune at MIDI note %i, within 2 cents", (pitch) => {
    const bass = makeBass(rate, 1);
    const times = { start: seconds(0), end: seconds(9) };
    const note: BassNote = {
      kind: "bass",
      part: "bass",
      pitch: midiNote(pitch),
      velocity: 0.7,
      ...times,
    };
    bass.start(note);
    const heard = new Float64Array(slowStep * 1400);
    const mono = new Float64Array(slowStep);
    for (let at = 0; at < heard.length; at += slowStep) {
      bass.render(mono, slowStep);
      bass.slowly();
      heard.set(mono, at);
    }
    const cents = centsFrom(heard.slice(3000), frequencyOf(pitch), rate);
    expect(Math.abs(cents)).toBeLessThan(2);
  });
});

describe("H10 the drums", () => {
  const low = (sound: Float32Array) => centroidOf(Float64Array.from(sound.subarray(0, 1500)), rate);
  const sounds = new Map(drums.map((drum) => [drum, drumSound(drum, rate, 9)]));

  test.each(drums)("H10 the %s starts from nothing, ends in nothing, and never clips", (drum) => {
    const sound = sounds.get(drum) ?? new Float32Array(0);
    const peak = sound.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
    expect(peak).toBeGreaterThan(0.05);
    expect(peak).toBeLessThan(1);
    expect(Math.abs(sound[0] ?? 1)).toBeLessThan(1e-6);
    expect(levelOf(sound, sound.length - 100, sound.length)).toBeLessThan(peak / 500);
  });

  test("H10 the kick is lowest, then the snare, then what is made of brass", () => {
    const [kick, snare, hat] = (["kick", "snare", "hat"] as const).map((drum) =>
      low(sounds.get(drum) ?? new Float32Array(0)),
    );
    expect(snare).toBeGreaterThan(1.5 * (kick ?? 0));
    expect(hat).toBeGreaterThan(1.3 * (snare ?? 0));
  });
});

describe("H11 the click", () => {
  test("H11 is higher on the first of a bar, and short", () => {
    const [first, other] = [true, false].map((isFirst) => clickSound(isFirst, rate));
    const centroid = (sound: Float32Array) => centroidOf(Float64Array.from(sound), rate);
    if (first === undefined || other === undefined) throw new Error("two clicks");
    expect(centroid(first)).toBeGreaterThan(1.15 * centroid(other));
    expect(first.length / rate).toBeLessThan(0.1);
    expect(levelOf(first, first.length - 50, first.length)).toBeLessThan(0.001);
  });
});
