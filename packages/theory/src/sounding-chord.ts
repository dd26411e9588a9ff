/**
 * What a chord is made of: its family, the tones that make it, those it can spare, and its
 * colours.
 */
import type { ChordFamily, ChordTone, Degree, NoteName, SoundingChord } from "./chord.ts";
import { suffixOf } from "./chord-suffix.ts";
import { degree, degreeNumber, toneAt } from "./degree.ts";
import { classOf } from "./pitch.ts";

/**
 * The colours a family takes without becoming another chord. Dominants and majors 9 and 13,
 * minors 9 and 11: common practice, no source. A diminished chord takes the tones a whole step
 * above its own, and its triad the diminished seventh; on the triad a flat thirteenth would make a
 * dominant of it, G7 of Bdim. A power chord stays bare: its two tones are all it says.
 */
const coloursOf: Readonly<Record<ChordFamily, readonly Degree[]>> = {
  major: [degree("9"), degree("13")],
  dominant: [degree("9"), degree("13")],
  minor: [degree("9"), degree("11")],
  "half-diminished": [degree("9"), degree("11")],
  diminished: [degree("9"), degree("11"), degree("b13"), degree("bb7")],
  augmented: [degree("9"), degree("#11")],
  suspended: [degree("9"), degree("13")],
  power: [],
};

/** A sixth and a thirteenth have one letter. */
const lettersInOctave = 7;

/** The chord of a root, its degrees in thirds, and a slash bass; `bass` undefined = the root. */
export function soundingChord(
  root: NoteName,
  degrees: readonly string[],
  bass: NoteName | undefined,
): SoundingChord {
  const tones = degrees.map((name) => toneAt(root, degree(name)));
  const family = familyOf(degrees);
  const hasSlash = bass !== undefined && bass !== root;
  return {
    kind: "chord",
    symbol: `${root}${suffixOf(degrees)}${hasSlash ? `/${bass}` : ""}`,
    root,
    rootClass: classOf(root),
    family,
    tones,
    bass: bass ?? root,
    bassClass: classOf(bass ?? root),
    guideTones: pick(tones, guideDegrees(degrees, family)),
    omittable: pick(tones, omittableDegrees(degrees)),
    tensions: tensionsOf(root, tones, family),
  };
}

function familyOf(degrees: readonly string[]): ChordFamily {
  const has = (name: string) => degrees.includes(name);
  if (has("b3")) {
    if (!has("b5")) return "minor";
    return has("b7") ? "half-diminished" : "diminished";
  }
  if (has("3")) {
    if (has("b7")) return "dominant";
    return has("#5") ? "augmented" : "major";
  }
  if (has("2") || has("4")) return "suspended";
  if (has("b7")) return "dominant";
  return degrees.some((name) => name.endsWith("7")) || has("6") ? "major" : "power";
}

/** SPEC.md T3. */
function guideDegrees(degrees: readonly string[], family: ChordFamily): readonly string[] {
  const seventh = degrees.filter((name) => name.endsWith("7"));
  const sixth = seventh.length === 0 ? degrees.filter((name) => name === "6") : [];
  if (isEleventhChord(degrees)) return ["11", ...seventh];
  const third = degrees.filter((name) => ["2", "b3", "3", "4"].includes(name));
  const needsFifth =
    family === "diminished" || family === "half-diminished" || family === "augmented";
  const fifth = needsFifth ? degrees.filter((name) => name === "b5" || name === "#5") : [];
  return [...third, ...fifth, ...seventh, ...sixth];
}

/** SPEC.md T4: first to last. */
function omittableDegrees(degrees: readonly string[]): readonly string[] {
  const third = isEleventhChord(degrees) ? ["3"] : [];
  const inner = degrees.includes("13") ? ["9", "11"] : degrees.includes("11") ? ["9"] : [];
  return [...third, "5", ...inner, "1"].filter((name) => degrees.includes(name));
}

/** A plain eleventh above a major third: the third rubs and is what players leave out. */
function isEleventhChord(degrees: readonly string[]): boolean {
  return degrees.includes("3") && degrees.includes("11") && degrees.some((name) => /7$/.test(name));
}

function pick(tones: readonly ChordTone[], degrees: readonly string[]): readonly ChordTone[] {
  return degrees.flatMap((name) => tones.filter((tone) => tone.degree === name));
}

/**
 * A colour is free when neither it nor an alteration of it is in the symbol, nor its pitch by
 * another name.
 */
function tensionsOf(
  root: NoteName,
  tones: readonly ChordTone[],
  family: ChordFamily,
): readonly ChordTone[] {
  const letterOf = (value: Degree) => degreeNumber(value) % lettersInOctave;
  const letters = new Set(tones.map((tone) => letterOf(tone.degree)));
  const free = coloursOf[family].filter((colour) => !letters.has(letterOf(colour)));
  const isFullDiminished = tones.some((tone) => tone.degree === "bb7");
  const hasSeventh = tones.some((tone) => degreeNumber(tone.degree) === 7);
  return [...free, ...(isFullDiminished ? [degree("7")] : [])]
    .map((colour) => toneAt(root, colour))
    .filter((colour) => tones.every((tone) => tone.pitchClass !== colour.pitchClass))
    .filter((colour) => colour.degree !== "b13" || hasSeventh)
    .filter((colour) => !(colour.degree === "13" && tones.some((tone) => tone.degree === "#5")));
}
