/** How far the usual voice types reach, for singers whose own range is not known. */
import type { Voice, VoiceType } from "@halflap/board/singing";
import { type MidiNote, midiNote } from "@halflap/theory/units";

/** Lowest and highest note, both included. */
export type VoiceRange = { readonly low: MidiNote; readonly high: MidiNote };

/**
 * The New Harvard Dictionary of Music, as quoted by Yale Music Cataloging ("Vocal ranges"). Other
 * dictionaries differ by a third at the ends.
 */
export const voiceRanges: Readonly<Record<VoiceType, VoiceRange>> = {
  soprano: { low: midiNote(60), high: midiNote(81) },
  mezzo: { low: midiNote(57), high: midiNote(77) },
  alto: { low: midiNote(53), high: midiNote(74) },
  tenor: { low: midiNote(47), high: midiNote(67) },
  baritone: { low: midiNote(43), high: midiNote(64) },
  bass: { low: midiNote(40), high: midiNote(60) },
};

/** What a voice reaches: its own range, else that of its type; undefined where neither is known. */
export function rangeOf(voice: Voice): VoiceRange | undefined {
  return voice.range ?? (voice.type && voiceRanges[voice.type]);
}
