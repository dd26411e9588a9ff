/** What tests write as text: chords, grips and keys, read; a text that can't be read is a bug. */
import type { SoundingChord } from "../chord.ts";
import { decodeGrip, type Grip } from "../grip.ts";
import { type Key, parseKey } from "../key.ts";
import { parseChord } from "../parse-chord.ts";

/** The sounding chord of a symbol. Throws on anything else. */
export function chord(text: string): SoundingChord {
  const read = parseChord(text);
  if (!read.ok || read.value.kind !== "chord") throw new Error(`no chord: ${text}`);
  return read.value;
}

/** The grip of a fret string. Throws on anything else. */
export function grip(text: string): Grip {
  const decoded = decodeGrip(text);
  if (decoded === undefined) throw new Error(`no grip: ${text}`);
  return decoded;
}

/** The key of its name. Throws on anything else. */
export function key(text: string): Key {
  const read = parseKey(text);
  if (!read.ok) throw new Error(`no key: ${text}`);
  return read.value;
}
