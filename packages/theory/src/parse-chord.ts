/** Reads chord symbols in any of their usual spellings: the grammar of SPEC.md T1 and T2. */
import type { Chord, ChordError, NoChord, NoteName, Reading } from "./chord.ts";
import { degreesOf } from "./chord-degrees.ts";
import { cutPieces } from "./chord-pieces.ts";
import { nearestQuality } from "./nearest-chord.ts";
import { type NoteNaming, noteAtStart, writtenSymbol } from "./note-naming.ts";
import { soundingChord } from "./sounding-chord.ts";

/** The longest chord symbol read, in UTF-16 units; longer text is refused unread. */
export const chordTextMax = 48;

/** Nobody plays a chord. */
export const noChord: NoChord = { kind: "no-chord", symbol: "N.C." };

type Read = Reading<Chord, ChordError>;

const noChordShape = /^n\.?\s?c\.?$|^no chord$/i;

/** A symbol in parts: where its quality begins and ends, and its slash bass if it has one. */
type Parts = {
  readonly root: NoteName;
  readonly bodyStart: number;
  readonly bodyEnd: number;
  readonly bass: NoteName | undefined;
};

/**
 * The chord a text spells, with or without brackets, Unicode signs and outer spaces. The symbol
 * of the chord is its canonical ASCII spelling, English in any case, and reads to the same chord
 * again. An error's column counts from the first character of `text`; `meant` is a symbol that can
 * be read in the same naming of notes.
 */
export function parseChord(text: string, naming: NoteNaming = "english"): Read {
  const symbol = text.trim();
  const offset = text.length - text.trimStart().length;
  const read = readSymbol(symbol, naming);
  if (read.ok) return read;
  const { error } = read;
  const meant = suggestionFor(symbol, error, naming);
  return { ok: false, error: { ...error, column: error.column + offset, meant } };
}

function readSymbol(symbol: string, naming: NoteNaming): Read {
  if (symbol === "") return failure("empty", 0, "");
  if (symbol.length > chordTextMax) {
    return failure("unknown-quality", chordTextMax, symbol.slice(chordTextMax));
  }
  if (noChordShape.test(symbol)) return { ok: true, value: noChord };
  const parts = partsOf(symbol, naming);
  if (parts === undefined) return failure("unknown-root", 0, symbol.slice(0, 1));
  const body = symbol.slice(parts.bodyStart, parts.bodyEnd).trimEnd();
  return readQuality(parts.root, body, parts.bodyStart, parts.bass);
}

function partsOf(symbol: string, naming: NoteNaming): Parts | undefined {
  const root = noteAtStart(symbol, naming);
  if (root === undefined) return undefined;
  const slash = symbol.lastIndexOf("/");
  const behind = slash < 0 ? "" : symbol.slice(slash + 1).trimStart();
  const bass = noteAtStart(behind, naming);
  const isBass = bass !== undefined && bass.length === behind.length;
  return {
    root: root.name,
    bodyStart: root.length,
    bodyEnd: isBass ? slash : symbol.length,
    bass: isBass ? bass.name : undefined,
  };
}

function readQuality(
  root: NoteName,
  body: string,
  column: number,
  bass: NoteName | undefined,
): Read {
  const { pieces, end } = cutPieces(body);
  if (end < body.length) {
    const isBass = body[end] === "/";
    return failure(isBass ? "unknown-bass" : "unknown-quality", column + end, body.slice(end));
  }
  const read = degreesOf(pieces);
  if (!read.ok) return failure("contradiction", column + read.clash.column, read.clash.text);
  return { ok: true, value: soundingChord(root, read.degrees, bass) };
}

function failure(kind: ChordError["kind"], column: number, read: string): Read {
  return { ok: false, error: { kind, column, read, meant: undefined } };
}

/**
 * The symbol that was probably meant: the part not understood mended, the rest kept, then read
 * again.
 */
function suggestionFor(symbol: string, error: ChordError, naming: NoteNaming): string | undefined {
  if (error.kind === "empty" || symbol.length > chordTextMax) return undefined;
  for (const candidate of mended(symbol, error, naming)) {
    const read = readSymbol(candidate, naming);
    if (read.ok) return writtenSymbol(read.value, naming);
  }
  return undefined;
}

function mended(symbol: string, error: ChordError, naming: NoteNaming): readonly string[] {
  switch (error.kind) {
    case "unknown-root":
      return mendedRoots(symbol, naming).flatMap((root) => [
        root,
        ...withNearestQuality(root, naming),
      ]);
    case "unknown-bass": {
      const before = symbol.slice(0, error.column);
      const basses = mendedRoots(error.read.slice(1).trim(), naming);
      return [...basses.map((bass) => `${before}/${bass}`), before];
    }
    default:
      return withNearestQuality(symbol, naming);
  }
}

/**
 * H is the German name of B, and there a raised B is a raised H; a small letter is a root typed in
 * haste, also where it stands for minor.
 */
function mendedRoots(text: string, naming: NoteNaming): readonly string[] {
  const first = text.slice(0, 1).toUpperCase();
  const rest = text.slice(1);
  if (naming === "german") {
    const isRaisedB = first === "B" && /^[#♯]/.test(rest);
    return /[A-H]/.test(first) ? [(isRaisedB ? "H" : first) + rest] : [];
  }
  const letter = first === "H" ? "B" : first;
  return /[A-G]/.test(letter) ? [letter + rest] : [];
}

function withNearestQuality(symbol: string, naming: NoteNaming): readonly string[] {
  const parts = partsOf(symbol, naming);
  if (parts === undefined) return [];
  const root = symbol.slice(0, parts.bodyStart);
  const bass = symbol.slice(parts.bodyEnd);
  const body = symbol.slice(parts.bodyStart, parts.bodyEnd);
  return nearestQuality(body).map((quality) => `${root}${quality}${bass}`);
}
