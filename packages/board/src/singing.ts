/** Who sings, where, and who has the gaps between. */
import type { MidiNote, Ticks } from "@halflap/theory/units";
import type { BarId, GapOwnerId, LaneId, PhraseId, VoiceId } from "./ids.ts";

/** The usual voice types, from the highest down. */
export const voiceTypes = ["soprano", "mezzo", "alto", "tenor", "baritone", "bass"] as const;
export type VoiceType = (typeof voiceTypes)[number];

/** Somebody who sings in this tune. */
export type Voice = {
  readonly id: VoiceId;
  readonly name: string;
  /** The lane whose guitarist it is; undefined for anybody else. */
  readonly lane: LaneId | undefined;
  readonly type: VoiceType | undefined;
  /** Lowest and highest sung note, where they are known better than by the type. */
  readonly range: { readonly low: MidiNote; readonly high: MidiNote } | undefined;
};

/** A note of the sung melody. */
export type SungNote = {
  /** From the start of the phrase. */
  readonly start: Ticks;
  readonly length: Ticks;
  readonly pitch: MidiNote;
};

/** A stretch in which the voice sings, whenever its section is sung. */
export type Phrase = {
  readonly id: PhraseId;
  readonly bar: BarId;
  /** From the start of its bar. */
  readonly start: Ticks;
  /** It may go on into the next bars of its section. */
  readonly length: Ticks;
  /** Empty where the melody was not written down. */
  readonly melody: readonly SungNote[];
};

/** Whose fill it is in the gap that holds this place. */
export type GapOwner = {
  readonly id: GapOwnerId;
  readonly bar: BarId;
  /** From the start of the bar. */
  readonly at: Ticks;
  /** "open" = left empty on purpose. */
  readonly owner: LaneId | "both" | "open";
};
