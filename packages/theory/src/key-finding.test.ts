/** The key of a chart is found, with the runner-up, wherever the chart is transposed to. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { printKey } from "./key.ts";
import { keysByLikelihood, likelyKey, type TimedChord } from "./key-finding.ts";
import { noChord, parseChord } from "./parse-chord.ts";
import { classOf } from "./pitch.ts";

const chart = (text: string): readonly TimedChord[] =>
  text.split(" ").map((symbol) => {
    const read = parseChord(symbol);
    if (!read.ok) throw new Error(`no chord: ${symbol}`);
    return { chord: read.value, length: 1 };
  });
const names = (text: string) => keysByLikelihood(chart(text)).map(({ key }) => printKey(key));

describe("T24 the likeliest key comes first", () => {
  test("all 24 keys are scored, each once, best first", () => {
    const scored = keysByLikelihood(chart("Dm7 G7 Cmaj7"));
    expect(new Set(scored.map(({ key }) => printKey(key))).size).toBe(24);
    const scores = scored.map(({ score }) => score);
    expect(scores).toEqual([...scores].sort((one, other) => other - one));
    expect(scores.every(Number.isFinite)).toBe(true);
  });

  test("the runner-up and its distance are told", () => {
    const likely = likelyKey(chart("Am F C G"));
    expect(likely && printKey(likely.best.key)).toBe("C");
    expect(likely && printKey(likely.runnerUp.key)).toBe("A minor");
    expect(likely?.lead).toBeCloseTo((likely?.best.score ?? 0) - (likely?.runnerUp.score ?? 0));
  });

  test("coming home decides between relatives", () => {
    expect(names("C Am Dm G C")[0]).toBe("C");
    expect(names("Am F Dm E Am")[0]).toBe("A minor");
  });

  test("a tune coloured with sevenths throughout is in the key it circles", () => {
    const verse = "F7 F7 F7 D7 Gm7 Gm7 Gm7 C7 F7 F7 A7 A7 Dm7 G7 C7 C7";
    const chorus = "Bb7 Bb7 Bdim7 Bdim7 F7/C F7/C D7 D7 G7 G7 C7 C7 F7 Bb7 F7 C7";
    expect(names(verse)[0]).toBe("F");
    expect(names(chorus)[0]).toBe("F");
    expect(names(`${verse} ${chorus}`)[0]).toBe("F");
  });

  test("length counts, the unit does not", () => {
    const chords = chart("C F G7 Am E7");
    const long = chords.map((each, index) => ({ ...each, length: index > 2 ? 4 : 1 }));
    const longer = long.map((each) => ({ ...each, length: each.length * 48 }));
    expect(keysByLikelihood(long)[0]?.key.tonic).toBe("A");
    expect(keysByLikelihood(longer).map(({ key }) => key)).toEqual(
      keysByLikelihood(long).map(({ key }) => key),
    );
  });

  test("the chart's spelling decides between two usual names", () => {
    expect(names("F# B C#7 F#")[0]).toBe("F#");
    expect(names("Gb Cb Db7 Gb")[0]).toBe("Gb");
    expect(names("G#m D#m G#m")[0]).toBe("G# minor");
    expect(names("Db Gb Ab7 Db")[0]).toBe("Db");
  });
});

describe("T24 there is no key without chords", () => {
  test("an empty chart and one of rests", () => {
    expect(keysByLikelihood([])).toEqual([]);
    expect(likelyKey([{ chord: noChord, length: 4 }])).toBeUndefined();
  });

  test("a chord of every tone fits all keys alike and breaks nothing", () => {
    const scored = keysByLikelihood(chart("Cdim7 C#dim7 Ddim7"));
    expect(scored.every(({ score }) => Number.isFinite(score))).toBe(true);
  });
});

test("T24 a transposed chart is in the transposed key", () => {
  const roots = "C Db D Eb E F Gb G Ab A Bb B".split(" ");
  const suffixes = "|m|7|m7|maj7|dim7".split("|");
  const chord = fc.tuple(fc.nat(11), fc.constantFrom(...suffixes));
  fc.assert(
    fc.property(fc.array(chord, { minLength: 1, maxLength: 12 }), fc.nat(11), (chords, up) => {
      const at = (by: number) =>
        keysByLikelihood(
          chart(chords.map(([root, suffix]) => `${roots[(root + by) % 12]}${suffix}`).join(" ")),
        );
      const [here, there] = [at(0), at(up)];
      // Where two keys score alike, either may come first: the scores are what must agree.
      return here.every(({ key, score }) => {
        const moved = (classOf(key.tonic) + up) % 12;
        const match = there.find(
          (other) => classOf(other.key.tonic) === moved && other.key.mode === key.mode,
        );
        return match !== undefined && Math.abs(match.score - score) < 1e-9;
      });
    }),
  );
});
