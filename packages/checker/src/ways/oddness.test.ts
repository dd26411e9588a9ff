/** Grips that a bandmate would ask about come after those that say their chord. */
import { gripPitches, parseGrip } from "@halflap/theory/grip";
import { parseChord } from "@halflap/theory/parse-chord";
import { defaultSetup } from "@halflap/theory/tuning";
import { assert } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { bars, type Played, smallBoard } from "../test-support/small-board.ts";
import { waysOf } from "../test-support/ways.ts";
import { oddnessOf } from "./oddness.ts";

function oddness(symbol: string, text: string): number {
  const [chord, grip] = [parseChord(symbol), parseGrip(text, defaultSetup)];
  assert(chord.ok && chord.value.kind === "chord" && grip.ok, `${symbol} ${text}`);
  return oddnessOf(gripPitches(grip.value, defaultSetup), chord.value);
}

describe("O6 what is odd about a grip", () => {
  // Standard tuning, counted by hand. The weights are ours.
  test.each([
    ["C7", "x-3-2-3-1-x", 0, "C E B flat C"],
    ["C7", "x-x-2-3-x-x", 0, "E B flat: two guide tones say it all"],
    ["C7", "x-x-x-x-3-3", 12, "D G: a colour, and no guide tone"],
    ["C7", "x-x-x-x-10-6", 8, "A B flat: a colour, and a semitone"],
    ["A7", "x-x-7-11-x-x", 12, "A F sharp"],
    ["A13", "x-x-7-11-x-x", 8, "F sharp is named now; the third and the seventh are still missing"],
    ["Dm7", "13-10-10-x-x-x", 4, "F G C"],
    ["Cmaj7", "x-x-x-4-1-x", 4, "B C"],
    ["E5", "0-2-x-x-x-x", 0, "a power chord has no guide tones to miss"],
    ["C/D", "x-x-0-0-1-0", 0, "the slash bass is named"],
  ])("%s %s: %d", (symbol, text, odd) => {
    expect(oddness(symbol, text)).toBe(odd);
  });
});

describe("O6 the first grip offered says its chord", () => {
  const around = (middle: Played) =>
    bars(["Gm", "x-x-5-3-3-x", "3-5-5-3-x-x"], middle, ["F", "x-x-x-5-6-5", "1-3-3-2-x-x"]);

  test.each([
    ["C7", "x-3-2-3-1-x", true],
    ["A7", "x-0-2-0-2-0", false],
    ["A7", "x-0-2-0-2-0", true],
    ["A7", "x-x-7-9-8-9", true],
    ["Dm7", "x-x-0-2-1-1", true],
    ["Dm7", "x-5-7-5-6-5", true],
  ])("%s for two hands on %s, bass player %s", (chord, grip, hasBass) => {
    const board = smallBoard({ sections: around([chord, grip, grip]), key: "F", hasBass });
    const ways = waysOf(board, "R03", { lanes: ["upper"] });
    const [first] = ways.flatMap(({ words }) => words.match(/: ([\dx-]+) in/)?.[1] ?? []);
    assert(first !== undefined, "a grip is offered");
    expect(`${first} ${oddness(chord, first)}`).toBe(`${first} 0`);
  });
});
