/** Grips that link with little motion come first, and say so. */
import { describe, expect, test } from "vitest";
import type { SoundingChord } from "./chord.ts";
import { decodeGrip, type Grip, printGrip } from "./grip.ts";
import { everydayWishes, gripsOf } from "./neck.ts";
import { parseChord } from "./parse-chord.ts";
import { type Ranking, rankGrips } from "./rank.ts";
import { defaultSetup } from "./tuning.ts";

const grip = (text: string): Grip => {
  const decoded = decodeGrip(text);
  if (decoded === undefined) throw new Error(`no grip: ${text}`);
  return decoded;
};
const chord = (text: string): SoundingChord => {
  const read = parseChord(text);
  if (!read.ok || read.value.kind !== "chord") throw new Error(`no chord: ${text}`);
  return read.value;
};
const ranked = (text: string, links: Partial<Ranking>) =>
  rankGrips({
    candidates: gripsOf(chord(text), defaultSetup, everydayWishes(true)),
    setup: defaultSetup,
    ...links,
  });

describe("T16 the smallest motion comes first", () => {
  test("F7 to B♭7 moves two semitones on the same strings", () => {
    const [first] = ranked("Bb7", { before: grip("x-x-3-2-4-x") });
    expect(first && printGrip(first.grip)).toBe("x-x-3-1-3-x");
    expect(first?.words).toBe("two semitones, one note held, same strings");
  });

  test("motion never falls down the list; at equal motion shift, then difficulty", () => {
    const list = ranked("G7", { before: grip("x-x-3-2-4-x"), after: grip("x-x-2-3-1-x") });
    for (const [index, each] of list.entries()) {
      const next = list[index + 1];
      if (next === undefined) continue;
      const keys = (one: typeof each) => [one.motion, one.shift, one.difficulty.total];
      const [mine, theirs] = [keys(each), keys(next)];
      const differs = mine.findIndex((key, place) => key !== theirs[place]);
      if (differs >= 0) expect(mine[differs]).toBeLessThan(theirs[differs] ?? 0);
    }
    expect(list.length).toBeGreaterThan(100);
  });

  test("both neighbours count", () => {
    const only = ranked("D7", { before: grip("x-x-3-2-4-x") })[0];
    const both = ranked("D7", { before: grip("x-x-3-2-4-x"), after: grip("x-x-3-3-3-x") })[0];
    expect(both?.motion).toBeGreaterThanOrEqual(only?.motion ?? 0);
    expect(ranked("D7", { after: grip("x-x-3-3-3-x") })[0]?.words).toMatch(/semitone/);
  });

  test("a grip that stays moves nothing", () => {
    expect(ranked("F7", { before: grip("x-x-3-2-4-x") })[0]?.words).toBe(
      "nothing moves, same strings",
    );
  });

  test("with nothing to link to, plain grips that make the chord come first", () => {
    const [first] = ranked("F7", { chord: chord("F7") });
    expect(first?.grip.frets.filter((fret) => fret !== undefined).length).toBeGreaterThan(2);
    expect(first?.words).toMatch(/^(one|two|three|four) fingers?, first at fret \d+$/);
    expect(first?.motion).toBe(0);
  });
});
