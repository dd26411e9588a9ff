/**
 * Cuts the part of a chord symbol behind its root into pieces, each with the column it stands at.
 */
import { asciiAccidentals } from "./pitch.ts";

export type Quality = "minor" | "diminished" | "half-diminished" | "augmented";

export type PieceMeaning =
  | { readonly kind: "quality"; readonly quality: Quality }
  | { readonly kind: "major" }
  | { readonly kind: "major-seventh" }
  | { readonly kind: "number"; readonly number: number }
  | { readonly kind: "suspended"; readonly degrees: readonly ("2" | "4")[] }
  | { readonly kind: "tone"; readonly degree: string }
  | { readonly kind: "omitted"; readonly number: 3 | 5 }
  | { readonly kind: "altered" }
  | { readonly kind: "separator" };

/** A meaning with its place in the text that was cut. */
export type Piece = PieceMeaning & { readonly column: number; readonly text: string };

/**
 * The pieces, and the column where cutting stopped (the length of the text when it was read to
 * its end).
 */
export type Cut = { readonly pieces: readonly Piece[]; readonly end: number };

type Pattern = {
  readonly shape: RegExp;
  readonly means: (text: string, before: readonly Piece[]) => PieceMeaning | undefined;
};

/**
 * Tried in this order at each place, so the longer spelling stands before the shorter one it
 * contains.
 */
const patterns: readonly Pattern[] = [
  { shape: /[()[\],\s]+|\/(?=[b#♭♯]?\d|[mM][aA]|M|Δ)/y, means: () => ({ kind: "separator" }) },
  { shape: /sus\s?2(?:sus|[\s/])?4|sus\s?4(?:sus|[\s/])?2/iy, means: () => suspended("2", "4") },
  { shape: /sus(?:pended)?\s?2/iy, means: () => suspended("2") },
  { shape: /sus(?:pended)?\s?4?/iy, means: () => suspended("4") },
  { shape: /add\s?[b#♭♯]?\d+/iy, means: (text) => addedTone(text.replace(/^add\s?/i, "")) },
  { shape: /(?:no|omit)\s?(?:3rd|5th|3|5)/iy, means: omitted },
  { shape: /alt(?:ered)?/iy, means: () => ({ kind: "altered" }) },
  { shape: /h(?:alf[-\s]?)?dim(?:inished)?|[øØ]/iy, means: () => quality("half-diminished") },
  { shape: /maj(?:or)?|ma(?!dd)/iy, means: () => ({ kind: "major" }) },
  { shape: /min(?:or)?|mi/iy, means: () => quality("minor") },
  { shape: /M/y, means: () => ({ kind: "major" }) },
  { shape: /m/y, means: () => quality("minor") },
  { shape: /[Δ∆△^]/y, means: () => ({ kind: "major-seventh" }) },
  { shape: /dim(?:inished)?|[°º˚o]/y, means: () => quality("diminished") },
  { shape: /aug(?:mented)?/iy, means: () => quality("augmented") },
  { shape: /dom(?:inant)?\s?(?=\d)/iy, means: () => ({ kind: "separator" }) },
  { shape: /[b#♭♯](?:13|11|9|6|5|4|2)/y, means: alteredTone },
  { shape: /[-−–+](?:13|11|9|7|6|5|4)/y, means: signedNumber },
  { shape: /[-−–]/y, means: (_, before) => (before.length > 0 ? undefined : quality("minor")) },
  { shape: /\+/y, means: plus },
  { shape: /(?:13|11|9|7|6|5)(?:th)?/y, means: numbered },
  { shape: /2/y, means: () => ({ kind: "tone", degree: "9" }) },
  { shape: /4/y, means: () => suspended("4") },
];

/** Reads as many pieces as it can, from the left. */
export function cutPieces(text: string): Cut {
  const pieces: Piece[] = [];
  let column = 0;
  while (column < text.length) {
    const piece = pieceAt(text, column, pieces);
    if (piece === undefined) break;
    pieces.push(piece);
    column += piece.text.length;
  }
  return { pieces, end: column };
}

function pieceAt(text: string, column: number, before: readonly Piece[]): Piece | undefined {
  for (const { shape, means } of patterns) {
    shape.lastIndex = column;
    const found = shape.exec(text)?.[0];
    if (found === undefined) continue;
    const meaning = means(found, before);
    if (meaning !== undefined) return { ...meaning, column, text: found };
  }
  return undefined;
}

function quality(value: Quality): PieceMeaning {
  return { kind: "quality", quality: value };
}

function suspended(...degrees: readonly ("2" | "4")[]): PieceMeaning {
  return { kind: "suspended", degrees };
}

function numbered(text: string): PieceMeaning {
  return { kind: "number", number: Number.parseInt(text, 10) };
}

function omitted(text: string): PieceMeaning {
  return { kind: "omitted", number: text.includes("3") ? 3 : 5 };
}

/** Added tones are named an octave up (2 = 9, 4 = 11); the sixth keeps its name. */
function addedTone(text: string): PieceMeaning | undefined {
  const ascii = asciiAccidentals(text);
  const lifted = ascii.replace(/2$/, "9").replace(/^([b#]?)4$/, "$111");
  return /^(?:b9|9|#9|11|#11|b13|13|6|b6)$/.test(lifted)
    ? { kind: "tone", degree: lifted }
    : undefined;
}

function alteredTone(text: string): PieceMeaning | undefined {
  const ascii = asciiAccidentals(text);
  return /^[b#]5$/.test(ascii) ? { kind: "tone", degree: ascii } : addedTone(ascii);
}

/**
 * A sign before a number. Right behind the root it is the quality (C-9 is minor, C+9 augmented),
 * behind anything else it lowers or raises (C7-9, C7+5), and m+7 is the minor chord with the
 * major seventh.
 */
function signedNumber(text: string, before: readonly Piece[]): PieceMeaning | undefined {
  if (before.length === 0) return text === "+5" ? quality("augmented") : undefined;
  const digits = text.slice(1);
  const isRaised = text.startsWith("+");
  if (digits === "7") return isRaised && isMinor(before) ? { kind: "major-seventh" } : undefined;
  return alteredTone(`${isRaised ? "#" : "b"}${digits}`);
}

function isMinor(before: readonly Piece[]): boolean {
  const last = before.filter((piece) => piece.kind !== "separator").at(-1);
  return last?.kind === "quality" && last.quality === "minor";
}

/** A bare plus is the augmented triad behind the root and the raised fifth behind a number. */
function plus(_: string, before: readonly Piece[]): PieceMeaning {
  return before.length === 0 ? quality("augmented") : { kind: "tone", degree: "#5" };
}
