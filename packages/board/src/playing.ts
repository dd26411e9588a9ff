/** What the hands do with a grip: strum patterns, fills and dynamics of one lane. */
import type { StringNumber } from "@halflap/theory/tuning";
import type { Fret, Ticks } from "@halflap/theory/units";
import type { BarId, FillId, StrumId } from "./ids.ts";

/** One stroke across the strings of the grip. */
export type Stroke = {
  readonly kind: "stroke";
  readonly way: "down" | "up";
  /** A ghost is a muted stroke: felt, no pitch. */
  readonly weight: "plain" | "accent" | "ghost";
  /** Sounds the grip of the next slot already: the chord comes early. */
  readonly push: boolean;
};

/** One step of a pattern: nothing new, the hand stopping the strings, or a stroke. */
export type Step = { readonly kind: "rest" } | { readonly kind: "choke" } | Stroke;

/** A strum pattern: it starts with every bar, and again within a bar that is longer. */
export type Strum = {
  readonly id: StrumId;
  readonly name: string;
  /** The length of a step: a quarter is 48, so eighths 24, eighth triplets 16, sixteenths 12. */
  readonly step: Ticks;
  /** Whether off-beat steps are swung: as the board says, or always one way. */
  readonly feel: "board" | "straight" | "swing";
  readonly palmMute: boolean;
  readonly steps: readonly Step[];
};

/** How a note of a fill is sounded; all but a pluck go on from the note before on the string. */
export const fillWays = ["pluck", "hammer-on", "pull-off", "slide", "bend"] as const;
export type FillWay = (typeof fillWays)[number];

export type FillNote = {
  /** From the start of the fill. */
  readonly start: Ticks;
  readonly length: Ticks;
  readonly string: StringNumber;
  /** Counted as the lane counts its frets. A bend starts here and goes up. */
  readonly fret: Fret;
  readonly way: FillWay;
  /** How far a bend goes, in semitones: 0.5 to 4; 0 for every other way. */
  readonly bend: number;
  /** Rings on past its length, to the next note on its string. */
  readonly letRing: boolean;
};

/** A figure in place of the strumming, for as long as it lasts. */
export type Fill = {
  readonly id: FillId;
  readonly bar: BarId;
  /** From the start of its bar. */
  readonly start: Ticks;
  /** It may go on into the next bars of its section. */
  readonly length: Ticks;
  /** A fill answers in a gap; a line is part of the tune (intro, riff, passing line). */
  readonly kind: "fill" | "line";
  /** The other lane fills here too, on purpose. */
  readonly together: boolean;
  /** By start, then by string from the lowest; empty while only its place is agreed. */
  readonly notes: readonly FillNote[];
};

/** From very soft to very loud. */
export const dynamics = ["pp", "p", "mp", "mf", "f", "ff"] as const;
export type Dynamic = (typeof dynamics)[number];
