/**
 * Random strings, half of them nearly right, a hundred thousand of them read as chords: every
 * reader answers, or says where it stopped.
 */
import { parseGrip } from "@halflap/theory/grip";
import { parseHarte } from "@halflap/theory/harte";
import { parseKey } from "@halflap/theory/key";
import { parseChord } from "@halflap/theory/parse-chord";
import { defaultSetup, parseTuning } from "@halflap/theory/tuning";
import { describe, expect, test } from "vitest";
import { type Chance, seeded } from "../support/seeded.ts";

const seed = 20_260_301;
const longestShort = 24;
const longest = 3_000;

const words = (line: string) => line.split(" ").map((word) => word.replaceAll("_", " "));
const chords = words(
  "C Am7 F#m7b5 Bb/F C7(b9,#11) Ebmaj9 Gsus4 D°7 Absus2 E+ C6/9 Dm(maj7) G13#11 N.C. Calt H7 Es/B",
);
const harte = words(
  "C:maj A:min7 F#:hdim7/b5 G:7(b9)/3 Eb:(3,5,b7) N D:minmaj7 E:sus4(*5,b7) Bb/5",
);
const keys = words("Bb F_minor C#_major H E-Dur h-Moll Es Ebm Am A-");
const grips = words("x-x-3-2-4-x 022100 x02220 10-12-12-11-10-10 xx0232 x_x_3_2_4_x");
const tunings = words("E_A_D_G_B_E DADGAD D2_A2_D3_G3_A3_D4 Standard Drop_D Eb_Ab_Db_Gb_Bb_Eb");
const musical = [..."ABCDEFGHabcdefghmMjinsudgalto0123456789#b♭♯𝄫𝄪Δ°øØ^+-−/()[],:*.xX×| \t%Nn"];
const wild = [..."\u0000\n\r\u00a0\u200b\u202eéßΩ漢字👍🏽e\u0301\ud800\udc00\uffff\"'\\{}<>$&;"];

function randomText(chance: Chance): string {
  const length = chance.happens(0.01) ? chance.below(longest) : chance.below(longestShort);
  const letters = chance.happens(0.2) ? [...musical, ...wild] : musical;
  return Array.from({ length }, () => chance.pick(letters)).join("");
}

/** A right text with one to three slips: a letter lost, doubled, changed, added, or two swapped. */
function mutatedText(chance: Chance, right: readonly string[]): string {
  const letters = [...chance.pick(right)];
  for (let slips = 1 + chance.below(3); slips > 0; slips--) {
    const at = chance.below(letters.length + 1);
    const here = letters[at] ?? "";
    const slip = chance.below(6);
    if (slip === 0) letters.splice(at, 1);
    else if (slip === 1) letters.splice(at, 0, here);
    else if (slip === 2) letters.splice(at, 1, chance.pick(musical));
    else if (slip === 3) letters.splice(at, 0, chance.pick(chance.happens(0.1) ? wild : musical));
    else if (slip === 4) letters.splice(at, 2, letters[at + 1] ?? "", here);
    else letters.splice(at, 0, ...chance.pick(right));
  }
  return letters.join("");
}

type Refusal = { readonly column: number; readonly meant: string | undefined };
type Read =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly error: Refusal };
type Reader = (text: string) => Read;

/** What is wrong with an answer, if anything: nothing read, no place in the text, no new guess. */
function fault(answer: Read, text: string): string | undefined {
  if (answer.ok) return answer.value === undefined ? "read as nothing" : undefined;
  const { column, meant } = answer.error;
  if (!Number.isInteger(column) || column < 0 || column > text.length) return `column ${column}`;
  return meant === "" || meant === text ? `meant ${meant}` : undefined;
}

/**
 * A guess that stands for the whole text can be read itself; one for a string or a note is short.
 */
function badGuess(answer: Read, read: Reader): string | undefined {
  const meant = answer.ok ? undefined : answer.error.meant;
  return meant === undefined || read(meant).ok ? undefined : `meant ${meant}`;
}

describe(`no string is too strange, seed ${seed}`, () => {
  test.each<[name: string, count: number, right: readonly string[], read: Reader]>([
    ["chord", 100_000, chords, (text) => parseChord(text)],
    ["chord in German", 20_000, chords, (text) => parseChord(text, "german")],
    ["chord in Harte syntax", 20_000, harte, (text) => parseHarte(text)],
    ["key", 20_000, keys, (text) => parseKey(text)],
    ["key in German", 20_000, keys, (text) => parseKey(text, "german")],
    ["grip", 20_000, grips, (text) => parseGrip(text, defaultSetup)],
    ["tuning", 20_000, tunings, (text) => parseTuning(text)],
  ])("read as a %s, %i of them", (_, count, right, read) => {
    const guessesPart = right === grips || right === tunings;
    const chance = seeded(seed);
    const faults: string[] = [];
    let understood = 0;
    for (let done = 0; done < count; done++) {
      const text = done % 2 === 0 ? randomText(chance) : mutatedText(chance, right);
      const answer = read(text);
      if (answer.ok) understood++;
      const found = fault(answer, text) ?? (guessesPart ? undefined : badGuess(answer, read));
      if (found !== undefined) faults.push(`${JSON.stringify(text)}: ${found}`);
    }
    expect(faults.slice(0, 10)).toEqual([]);
    // Neither all nor nothing: the strings reach into the readers.
    expect(understood).toBeGreaterThan(count / 100);
    expect(understood).toBeLessThan(count / 2);
  });
});
