/**
 * What the seam shows of one slot: both lanes' notes, their registers, where these overlap, what
 * is doubled.
 */
import type { LaneId } from "@halflap/board/board";
import { type MidiNote, midiNote } from "@halflap/theory/units";

/** Lowest and highest pitch of a lane, both included. */
export type Register = { readonly low: MidiNote; readonly high: MidiNote };

/** A doubled pitch is drawn in two halves, one for each lane; every other note fills the slot. */
export type SeamNote = {
  readonly lane: LaneId;
  readonly pitch: MidiNote;
  readonly part: "whole" | "first" | "second";
};

export type SeamFigure = {
  readonly notes: readonly SeamNote[];
  readonly registers: Readonly<Record<LaneId, Register | undefined>>;
  /** The band that both registers cover; undefined when they lie apart. */
  readonly overlap: Register | undefined;
  /** Pitches that both lanes sound. */
  readonly doubled: readonly MidiNote[];
};

/** The figure of a slot from the ascending pitches of both lanes; an empty list means silence. */
export function seamFigure(upper: readonly MidiNote[], lower: readonly MidiNote[]): SeamFigure {
  const registers = { upper: registerOf(upper), lower: registerOf(lower) };
  const doubled = upper.filter((pitch) => lower.includes(pitch));
  const notes: SeamNote[] = [];
  for (const pitch of upper) {
    notes.push({ lane: "upper", pitch, part: lower.includes(pitch) ? "first" : "whole" });
  }
  for (const pitch of lower) {
    notes.push({ lane: "lower", pitch, part: upper.includes(pitch) ? "second" : "whole" });
  }
  return { notes, registers, overlap: overlapOf(registers.upper, registers.lower), doubled };
}

function registerOf(pitches: readonly MidiNote[]): Register | undefined {
  const low = pitches[0];
  const high = pitches.at(-1);
  return low === undefined || high === undefined ? undefined : { low, high };
}

function overlapOf(a: Register | undefined, b: Register | undefined): Register | undefined {
  if (!a || !b) return undefined;
  const low = midiNote(Math.max(a.low, b.low));
  const high = midiNote(Math.min(a.high, b.high));
  return low <= high ? { low, high } : undefined;
}
