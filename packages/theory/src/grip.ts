/** A grip: what the fretting hand does on six strings, written low string first, `x-x-3-2-4-x`. */
import type { Reading } from "./chord.ts";
import {
  highestFret,
  lowestFret,
  neckFret,
  pitchAt,
  type Setup,
  stringCount,
  stringNumbers,
  type StringNumber as TunedString,
} from "./tuning.ts";
import { assert, type Fret, fret, fretMax, type MidiNote } from "./units.ts";

/** String number as guitarists count: 6 = lowest, 1 = highest. */
export type StringNumber = TunedString;

/** Exactly six, string 6 (lowest) first; undefined = not sounded. */
export type Grip = { readonly frets: readonly (Fret | undefined)[] };

/** A sounding string of a grip. */
export type GripNote = {
  readonly string: StringNumber;
  readonly fret: Fret;
  readonly pitch: MidiNote;
};

export type GripError = {
  readonly kind: "wrong-count" | "unknown-fret" | "beyond-neck" | "nothing-sounds";
  /** 0-based column in the typed text. */
  readonly column: number;
  readonly read: string;
  readonly meant: string | undefined;
};

/** The longest text read as a grip, in UTF-16 units. */
export const gripTextMax = 64;

type Field = { readonly text: string; readonly column: number };

const separator = /[\s,|./–-]/u;
const silent = /^[xX×mM]$/u;
const open = /^[oO○]$/u;
const strict = /^(?:x|\d|1\d|2[0-4])(?:-(?:x|\d|1\d|2[0-4])){5}$/;

/** The grip of six frets, lowest string first; another count, or no sounding string, is a bug. */
export function gripOf(frets: readonly (Fret | undefined)[]): Grip {
  assert(frets.length === stringCount, "a grip has six strings", frets.length);
  assert(
    frets.some((played) => played !== undefined),
    "a grip sounds at least one string",
  );
  return { frets: [...frets] };
}

/**
 * The grip a player typed: "x-x-3-2-4-x", "x x 3 2 4 x" or, while all frets are single digits,
 * "xx324x". X, ×, m are silent, o is open. Frets are counted as the lane counts and must lie on
 * its neck.
 */
export function parseGrip(text: string, setup: Setup): Reading<Grip, GripError> {
  if (text.length > gripTextMax) return failure("wrong-count", gripTextMax, "", undefined);
  const fields = fieldsOf(text);
  const beyond = fields[stringCount];
  if (fields.length !== stringCount) {
    const meant = meantBy(text, setup);
    return failure("wrong-count", beyond?.column ?? text.length, beyond?.text ?? "", meant);
  }
  const frets: (Fret | undefined)[] = [];
  for (const field of fields) {
    const read = readField(field, setup);
    if (!read.ok) return read;
    frets.push(read.value);
  }
  if (frets.every((played) => played === undefined)) {
    return failure("nothing-sounds", fields[0]?.column ?? 0, text.trim(), undefined);
  }
  return { ok: true, value: gripOf(frets) };
}

/** The grip as it is stored and shown: six fields joined by dashes, x for a silent string. */
export function printGrip(grip: Grip): string {
  return grip.frets.map((played) => played ?? "x").join("-");
}

/**
 * The grip of exactly the text `printGrip` writes; undefined for anything else. For the border of
 * storage.
 */
export function decodeGrip(text: string): Grip | undefined {
  if (!strict.test(text)) return undefined;
  const frets = text.split("-").map((field) => (field === "x" ? undefined : fret(Number(field))));
  return frets.every((played) => played === undefined) ? undefined : gripOf(frets);
}

/**
 * What sounds, string 6 to 1. A fret that the capo or the end of the neck rules out sounds
 * nothing.
 */
export function gripNotes(grip: Grip, setup: Setup): readonly GripNote[] {
  const notes: GripNote[] = [];
  for (const [index, string] of stringNumbers.entries()) {
    const played = grip.frets[index];
    const pitch = played === undefined ? undefined : pitchAt(setup, string, played);
    if (played !== undefined && pitch !== undefined) notes.push({ string, fret: played, pitch });
  }
  return notes;
}

/** The sounding pitches, lowest first; a pitch on two strings comes twice. */
export function gripPitches(grip: Grip, setup: Setup): readonly MidiNote[] {
  return gripNotes(grip, setup)
    .map((note) => note.pitch)
    .sort((one, other) => one - other);
}

/** Whether two grips have the same fret on every string; what they sound depends on the setups. */
export function sameGrip(one: Grip, other: Grip): boolean {
  return one.frets.every((played, index) => played === other.frets[index]);
}

/** With separators a field is what stands between them, without any it is one character. */
function fieldsOf(text: string): readonly Field[] {
  const shape = separator.test(text.trim()) ? /[^\s,|./–-]+/gu : /\S/gu;
  return [...text.matchAll(shape)].map((found) => ({ text: found[0], column: found.index }));
}

function readField(field: Field, setup: Setup): Reading<Fret | undefined, GripError> {
  if (silent.test(field.text)) return { ok: true, value: undefined };
  if (open.test(field.text)) return { ok: true, value: fret(0) };
  if (!/^\d{1,3}$/.test(field.text)) {
    return failure("unknown-fret", field.column, field.text, undefined);
  }
  const number = Number(field.text);
  const isOnNeck = number <= fretMax && neckFret(setup, fret(number)) !== undefined;
  if (isOnNeck) return { ok: true, value: fret(number) };
  const nearest = number > lowestFret(setup) ? highestFret(setup) : lowestFret(setup);
  return failure("beyond-neck", field.column, field.text, String(nearest));
}

/**
 * What a text with the wrong number of fields may have meant: silent strings typed as dashes,
 * "--324-", or two-digit frets written together, "xxxx1213", when only one way of cutting gives
 * six strings.
 */
function meantBy(text: string, setup: Setup): string | undefined {
  const typed = text.trim();
  const dashed = /^[-xX\d]{6}$/.test(typed) ? [typed.replace(/-/g, "x").split("")] : [];
  const cuts = separator.test(typed) ? dashed : cutsOf(typed, stringCount);
  const readable = cuts
    .map((fields) => fields.join("-"))
    .filter((fields) => decodeGrip(fields) !== undefined && parseGrip(fields, setup).ok);
  return readable.length === 1 ? readable[0] : undefined;
}

/** All ways to cut a text into so many fields of an x, one digit, or two digits from 10 on. */
function cutsOf(text: string, fields: number): readonly (readonly string[])[] {
  if (fields === 0) return text === "" ? [[]] : [];
  const heads = [/^x/i, /^\d/, /^[12]\d/].flatMap((shape) => shape.exec(text)?.[0] ?? []);
  return heads.flatMap((head) =>
    cutsOf(text.slice(head.length), fields - 1).map((rest) => [head.toLowerCase(), ...rest]),
  );
}

function failure(
  kind: GripError["kind"],
  column: number,
  read: string,
  meant: string | undefined,
): { readonly ok: false; readonly error: GripError } {
  return { ok: false, error: { kind, column, read, meant } };
}
