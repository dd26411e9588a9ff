/** A grip: what the fretting hand does on six strings, written low string first, `x-x-3-2-4-x`. */
import type { Fret, MidiNote } from "./units.ts";

/** String number as guitarists count: 6 = lowest, 1 = highest. */
export type StringNumber = 1 | 2 | 3 | 4 | 5 | 6;

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
