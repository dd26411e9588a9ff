/** One thing that is played, in seconds from the start. */
import type { LaneId } from "@halflap/board/board";
import type { StringNumber } from "@halflap/theory/tuning";
import type { MidiNote } from "@halflap/theory/units";
import type { Technique } from "@halflap/timeline/sound-events";
import type { Seconds } from "./seconds.ts";

/** A note of a guitar. */
export type GuitarNote = {
  readonly kind: "guitar";
  readonly part: LaneId;
  readonly string: StringNumber;
  /** Where it is fretted; a bend starts here. */
  readonly pitch: MidiNote;
  /** How far a bend goes up, in semitones; 0 for all else. */
  readonly bend: number;
  readonly start: Seconds;
  readonly end: Seconds;
  /** How hard it is struck: above 0, at most 1. */
  readonly velocity: number;
  readonly technique: Technique;
  /** Whether the note before it on its string sounds until it starts. */
  readonly follows: boolean;
};

export type BassNote = {
  readonly kind: "bass";
  readonly part: "bass";
  readonly pitch: MidiNote;
  readonly start: Seconds;
  readonly end: Seconds;
  readonly velocity: number;
};

/** The drums there are; `foot` is the hi-hat closed by the foot. */
export const drums = ["kick", "snare", "hat", "ride", "foot"] as const;
export type Drum = (typeof drums)[number];

export type DrumStroke = {
  readonly kind: "drum";
  readonly part: "drums";
  readonly drum: Drum;
  readonly start: Seconds;
  readonly velocity: number;
};

export type Click = {
  readonly kind: "click";
  readonly part: "click" | "count-in";
  /** Whether it is the first of its bar. */
  readonly isFirst: boolean;
  readonly start: Seconds;
};

export type PlayEvent = GuitarNote | BassNote | DrumStroke | Click;

/** Everybody who is heard. */
export const parts = ["upper", "lower", "bass", "drums", "click", "count-in"] as const;
export type Part = (typeof parts)[number];
