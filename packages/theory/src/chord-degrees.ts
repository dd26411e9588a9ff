/** From the pieces of a chord symbol to the degrees it asks for: SPEC.md T2. */
import type { Piece, Quality } from "./chord-pieces.ts";

/** The degrees in thirds from the root, or the piece that contradicts what stands before it. */
export type DegreesRead =
  | { readonly ok: true; readonly degrees: readonly string[] }
  | { readonly ok: false; readonly clash: Piece };

/** Everything a symbol can ask for, from the root up, with its distance above it in semitones. */
const inThirds: readonly (readonly [degree: string, semitones: number])[] = [
  ["1", 0],
  ["2", 2],
  ["b3", 3],
  ["3", 4],
  ["4", 5],
  ["b5", 6],
  ["5", 7],
  ["#5", 8],
  ["b6", 8],
  ["6", 9],
  ["bb7", 9],
  ["b7", 10],
  ["7", 11],
  ["b9", 1],
  ["9", 2],
  ["#9", 3],
  ["11", 5],
  ["#11", 6],
  ["b13", 8],
  ["13", 9],
];

/** What T2 leaves the word `alt` to mean: a dominant with both fifths and both ninths altered. */
export const alteredDegrees: readonly string[] = ["1", "3", "b5", "#5", "b7", "b9", "#9"];

const triads: Readonly<Record<Quality | "major", readonly string[]>> = {
  major: ["1", "3", "5"],
  minor: ["1", "b3", "5"],
  diminished: ["1", "b3", "b5"],
  "half-diminished": ["1", "b3", "b5", "b7"],
  augmented: ["1", "3", "#5"],
};

/** What the pieces ask for before they are put together. */
type Wanted = {
  quality: Piece | undefined;
  major: Piece | undefined;
  headline: Piece | undefined;
  number: number | undefined;
  altered: boolean;
  readonly suspended: string[];
  readonly added: { readonly degree: string; readonly piece: Piece }[];
  readonly omitted: Piece[];
};

/** The degrees the pieces add up to. */
export function degreesOf(pieces: readonly Piece[]): DegreesRead {
  const wanted: Wanted = {
    quality: undefined,
    major: undefined,
    headline: undefined,
    number: undefined,
    altered: false,
    suspended: [],
    added: [],
    omitted: [],
  };
  for (const [index, piece] of pieces.entries()) {
    if (!collect(wanted, piece, pieces[index - 1])) return { ok: false, clash: piece };
  }
  return putTogether(wanted);
}

/** Adds one piece to what is wanted; false when it contradicts an earlier one. */
function collect(wanted: Wanted, piece: Piece, before: Piece | undefined): boolean {
  switch (piece.kind) {
    case "separator":
      return true;
    case "quality":
      if (wanted.quality !== undefined) return false;
      wanted.quality = piece;
      return true;
    case "major":
    case "major-seventh":
      if (wanted.major !== undefined) return false;
      wanted.major = piece;
      return true;
    case "suspended":
      wanted.suspended.push(...piece.degrees);
      return true;
    case "altered":
      wanted.altered = true;
      return true;
    case "omitted":
      wanted.omitted.push(piece);
      return true;
    case "tone":
      wanted.added.push({ degree: piece.degree, piece });
      return true;
    case "number":
      return collectNumber(wanted, piece, piece.number, before);
  }
}

/**
 * The first number names the stack of thirds (C9); one set apart behind it, or in brackets where
 * there is no stack, adds just that tone: C7(13), C(9), C6/9. A seventh behind a sixth is the
 * stack, and the sixth is added to it: C67.
 */
function collectNumber(
  wanted: Wanted,
  piece: Piece,
  number: number,
  before: Piece | undefined,
): boolean {
  const isApart = before?.kind === "separator";
  const isBracketed = isApart && /[([,/]/.test(before.text);
  const isSixNine = number === 9 && wanted.number === 6;
  if (wanted.number === 6 && number === 7) {
    wanted.number = 7;
    wanted.added.push({ degree: "6", piece });
    return true;
  }
  const isAdded = wanted.headline === undefined ? isBracketed && number > 7 : isApart || isSixNine;
  if (isAdded && (number > 7 || number === 6)) {
    wanted.added.push({ degree: String(number), piece });
    return true;
  }
  if (wanted.headline !== undefined) return false;
  wanted.headline = piece;
  wanted.number = number;
  return true;
}

function putTogether(wanted: Wanted): DegreesRead {
  const isStacked = wanted.number !== undefined && wanted.number !== 7;
  const besideAlt = wanted.quality ?? wanted.major ?? (isStacked ? wanted.headline : undefined);
  if (wanted.altered && besideAlt !== undefined) return { ok: false, clash: besideAlt };
  const isHalf = wanted.quality?.kind === "quality" && wanted.quality.quality === "half-diminished";
  if (isHalf && wanted.major !== undefined) return { ok: false, clash: wanted.major };
  const degrees = new Set(wanted.altered ? alteredDegrees : stack(wanted));
  if (wanted.number === 5) {
    const third = wanted.quality ?? wanted.major;
    if (third !== undefined && wanted.headline !== undefined) {
      return { ok: false, clash: wanted.headline };
    }
    degrees.delete("3");
  }
  if (wanted.suspended.length > 0) {
    degrees.delete("3");
    degrees.delete("b3");
    for (const degree of wanted.suspended) degrees.add(degree);
  }
  const headline = wanted.number === undefined ? [] : [asExtension(String(wanted.number))];
  const explicit = new Set([...headline, ...(wanted.altered ? alteredDegrees : [])]);
  for (const { degree, piece } of wanted.added) {
    if (!addTone(degrees, explicit, degree, wanted.quality)) return { ok: false, clash: piece };
  }
  for (const piece of wanted.omitted) {
    if (!omit(degrees, piece)) return { ok: false, clash: piece };
  }
  // Above a seventh the sixth is called a thirteenth.
  if (hasSeventh(degrees) && degrees.delete("6")) degrees.add("13");
  return { ok: true, degrees: ordered(degrees) };
}

/** The triad of the quality with the thirds that the number stacks on it. */
function stack(wanted: Wanted): string[] {
  const quality = wanted.quality?.kind === "quality" ? wanted.quality.quality : "major";
  const number = wanted.number ?? (wanted.major?.kind === "major-seventh" ? 7 : 0);
  const degrees = [...triads[quality]];
  if (number === 6) degrees.push("6");
  if (wanted.major?.kind === "major-seventh" && number < 7) degrees.push("7");
  if (number < 7) return degrees;
  if (wanted.major !== undefined) degrees.push("7");
  else degrees.push(quality === "diminished" ? "bb7" : "b7");
  if (number >= 9) degrees.push("9");
  // The eleventh rubs against a major third, so a thirteenth takes it in only on a minor chord.
  if (number === 11 || (number === 13 && degrees.includes("b3"))) degrees.push("11");
  if (number === 13) degrees.push("13");
  return degrees;
}

/** Adds a tone and takes out the plain one it alters; false when both were asked for by name. */
function addTone(
  degrees: Set<string>,
  explicit: Set<string>,
  degree: string,
  quality: Piece | undefined,
): boolean {
  const number = degree.replace(/^[b#]/, "");
  const named = asExtension(degree);
  const natural = asExtension(number);
  const isAltered = number !== degree;
  if (isAltered && explicit.has(natural)) return false;
  if (!isAltered && [`b${natural}`, `#${natural}`].some((other) => explicit.has(other)))
    return false;
  if (number === "5" && isFifthTaken(degrees, degree, quality)) return false;
  explicit.add(named);
  if (isAltered) degrees.delete(number);
  degrees.add(degree);
  return true;
}

/**
 * A sixth and a thirteenth are one tone, so that one plain and the other altered contradict each
 * other.
 */
function asExtension(degree: string): string {
  return degree.replace(/6$/, "13");
}

/**
 * Whether the quality has already set the fifth the other way: dim with a raised one, aug with a
 * lowered.
 */
function isFifthTaken(
  degrees: ReadonlySet<string>,
  degree: string,
  quality: Piece | undefined,
): boolean {
  if (quality?.kind !== "quality" || quality.quality === "minor") return false;
  return degrees.has(degree === "b5" ? "#5" : "b5");
}

function omit(degrees: Set<string>, piece: Piece): boolean {
  if (piece.kind !== "omitted") return true;
  if (piece.number === 5) return degrees.delete("5");
  const isSuspended = degrees.has("2") || degrees.has("4");
  return degrees.delete("3") || degrees.delete("b3") || isSuspended;
}

function hasSeventh(degrees: ReadonlySet<string>): boolean {
  return degrees.has("b7") || degrees.has("7") || degrees.has("bb7");
}

/**
 * In thirds from the root; a second name for a pitch class that is already there says nothing
 * new.
 */
function ordered(degrees: ReadonlySet<string>): readonly string[] {
  const taken = new Set<number>();
  return inThirds
    .filter(([degree, semitones]) => {
      if (!degrees.has(degree) || taken.has(semitones)) return false;
      taken.add(semitones);
      return true;
    })
    .map(([degree]) => degree);
}
