/** Grips that link with little motion come first, and say so. */

import { describe, expect, test } from "vitest";
import { gripPitches, printGrip } from "./grip.ts";
import { everydayWishes, gripsOf } from "./neck.ts";
import { type Ranking, rankGrips } from "./rank.ts";
import { chord, grip } from "./test-support/as-read.ts";
import { defaultSetup } from "./tuning.ts";

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

  // The shells 1-3-b7 and 1-b7-3 on neighbouring strings (common practice, no source).
  test.each([
    ["F7", "x-8-7-8-x-x"],
    ["F7", "x-x-3-2-4-x"],
    ["Cm7", "x-10-8-8-x-x"],
  ])("with nothing to link to, %s is soon offered as the shell %s", (symbol, shell) => {
    const first = ranked(symbol, { chord: chord(symbol) }).slice(0, 6);
    expect(first.map((each) => printGrip(each.grip))).toContain(shell);
  });

  test("a start lies above the bass and below the high frets, where there is such a grip", () => {
    for (const symbol of ["Bb6", "F7", "Cm7", "Edim7", "Amaj7"]) {
      for (const { grip: found, difficulty } of ranked(symbol, { chord: chord(symbol) }).slice(
        0,
        4,
      )) {
        expect(Math.min(...gripPitches(found, defaultSetup))).toBeGreaterThanOrEqual(52);
        expect(difficulty.position ?? 0).toBeLessThan(10);
      }
    }
  });
});
