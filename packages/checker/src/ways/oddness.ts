/** How far a grip is from what its symbol says: unnamed colours, bare pairs, semitones in it. */
import type { Board, LaneId } from "@halflap/board/board";
import type { SoundingChord } from "@halflap/theory/chord";
import { gripPitches } from "@halflap/theory/grip";
import { type MidiNote, pitchClass } from "@halflap/theory/units";
import { guideTonesOf } from "../guide-tones.ts";
import { rubDistance } from "../thresholds.ts";
import { weights } from "./weights.ts";

/** Two strings without 3rd and 7th weigh so much: worse than a colour. Ours. */
export const bareWeight: number = 2 * weights.look;

/**
 * What a bandmate would ask about the grip before any rule does, weighed as findings are: a look
 * for each colour that the symbol does not name and for each semitone between two strings, two
 * for two strings that leave the chord untold.
 */
export function oddnessOf(pitches: readonly MidiNote[], chord: SoundingChord): number {
  const named = new Set([...chord.tones.map((tone) => tone.pitchClass), chord.bassClass]);
  const heard = new Set(pitches.map(pitchClass));
  const colours = [...heard].filter((value) => !named.has(value)).length;
  const ordered = [...pitches].sort((a, b) => a - b);
  const rubs = ordered.filter(
    (pitch, index) => pitch - (ordered[index - 1] ?? 0) === rubDistance.semitone,
  ).length;
  return (colours + rubs) * weights.look + (isBare(pitches, chord) ? bareWeight : 0);
}

/** Whether it is two strings at most, neither of which says what chord it is. */
export function isBare(pitches: readonly MidiNote[], chord: SoundingChord): boolean {
  const guides = guideTonesOf(chord);
  const heard = new Set(pitches.map(pitchClass));
  return (
    pitches.length <= 2 && guides.length > 0 && !guides.some((tone) => heard.has(tone.pitchClass))
  );
}

/** How much odder the lane's grips are on the changed board; what it rests in says nothing. */
export function oddnessBetween(before: Board, after: Board, lane: LaneId): number {
  const [was, is] = [before.lanes[lane], after.lanes[lane]];
  let more = 0;
  for (const { bars } of after.sections) {
    for (const { slots } of bars) {
      for (const { id, chord } of slots) {
        const [old, next] = [was.grips.get(id), is.grips.get(id)];
        if (chord?.kind !== "chord" || old === next) continue;
        more += next === undefined ? 0 : oddnessOf(gripPitches(next, is.setup), chord);
        more -= old === undefined ? 0 : oddnessOf(gripPitches(old, was.setup), chord);
      }
    }
  }
  return more;
}
