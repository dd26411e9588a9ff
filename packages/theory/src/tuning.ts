/** A guitar as its lane sets it up: six open pitches, capo, and from where its frets are counted. */
import type { Fret, MidiNote, Millimetres } from "./units.ts";

/** Exactly six open pitches, string 6 (lowest) first, without the capo. */
export type Tuning = readonly MidiNote[];

/** Everything needed to turn frets into pitches. */
export type Setup = {
  readonly tuning: Tuning;
  /** The fret the capo lies on; 0 = none. */
  readonly capo: Fret;
  /** Whether a typed fret 3 with the capo on 2 lies one fret or three above the capo. */
  readonly fretsFrom: "nut" | "capo";
  /** The last fret of the neck, counted from the nut. */
  readonly lastFret: Fret;
  readonly scaleLength: Millimetres;
};
