/** Reads chord symbols in any of their usual spellings: the grammar of SPEC.md T1 and T2. */
import type { Chord, ChordError, NoChord, NoteName, Reading } from "./chord.ts";
import { degreesOf } from "./chord-degrees.ts";
import { cutPieces } from "./chord-pieces.ts";
import { nearestQuality } from "./nearest-chord.ts";
import { noteName } from "./pitch.ts";
import { soundingChord } from "./sounding-chord.ts";

/** The longest chord symbol read, in UTF-16 units; longer text is refused unread. */
export const chordTextMax = 48;

/** Nobody plays a chord. */
export const noChord: NoChord = { kind: "no-chord", symbol: "N.C." };

type Read = Reading<Chord, ChordError>;

const noChordShape = /^n\.?\s?c\.?$|^no chord$/i;
const rootShape = /^[A-G](?:bb|♭♭|𝄫|##|♯♯|𝄪|x|[b♭#♯♮])?/;
const slashBass = /\/\s*([A-G](?:bb|♭♭|𝄫|##|♯♯|𝄪|x|[b♭#♯♮])?)$/;

/**
 * The chord a text spells, with or without brackets, Unicode signs and outer spaces. The symbol
 * of the chord is its canonical ASCII spelling and reads to the same chord again. An error's
 * column counts from the first character of `text`; `meant` is a symbol that can be read.
 */
export function parseChord(text: string): Read {
  const symbol = text.trim();
  const offset = text.length - text.trimStart().length;
  const read = readSymbol(symbol);
  if (read.ok) return read;
  const { error } = read;
  const meant = error.meant ?? suggestionFor(symbol, error);
  return { ok: false, error: { ...error, column: error.column + offset, meant } };
}

function readSymbol(symbol: string): Read {
  if (symbol === "") return failure("empty", 0, "");
  if (symbol.length > chordTextMax) {
    return failure("unknown-quality", chordTextMax, symbol.slice(chordTextMax));
  }
  if (noChordShape.test(symbol)) return { ok: true, value: noChord };
  const rootText = rootShape.exec(symbol)?.[0];
  const root = noteName(rootText ?? "");
  if (rootText === undefined || root === undefined) {
    return failure("unknown-root", 0, symbol.slice(0, 1));
  }
  const bassText = slashBass.exec(symbol);
  const bodyEnd = bassText?.index ?? symbol.length;
  const body = symbol.slice(rootText.length, bodyEnd).trimEnd();
  return readQuality(root, body, rootText.length, noteName(bassText?.[1] ?? ""));
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
function suggestionFor(symbol: string, error: ChordError): string | undefined {
  if (error.kind === "empty" || symbol.length > chordTextMax) return undefined;
  const candidates = mended(symbol, error);
  for (const candidate of candidates) {
    const read = readSymbol(candidate);
    if (read.ok) return read.value.symbol;
  }
  return undefined;
}

function mended(symbol: string, error: ChordError): readonly string[] {
  switch (error.kind) {
    case "unknown-root":
      return mendedRoots(symbol).flatMap((root) => [root, ...withNearestQuality(root)]);
    case "unknown-bass": {
      const before = symbol.slice(0, error.column);
      return [
        ...mendedRoots(error.read.slice(1).trim()).map((bass) => `${before}/${bass}`),
        before,
      ];
    }
    default:
      return withNearestQuality(symbol);
  }
}

/**
 * H is the German name of B; a small letter is a root typed in haste, also where it stands for
 * minor.
 */
function mendedRoots(text: string): readonly string[] {
  const first = text.slice(0, 1).toUpperCase();
  const letter = first === "H" ? "B" : first;
  return /[A-G]/.test(letter) ? [letter + text.slice(1)] : [];
}

function withNearestQuality(symbol: string): readonly string[] {
  const root = rootShape.exec(symbol)?.[0];
  if (root === undefined) return [];
  const bass = slashBass.exec(symbol)?.[0] ?? "";
  const body = symbol.slice(root.length, symbol.length - bass.length);
  return nearestQuality(body).map((quality) => `${root}${quality}${bass}`);
}
