/** Whether a part would be right if only its capo were not there. */
import type { LaneId } from "@halflap/board/board";
import type { SoundingChord } from "@halflap/theory/chord";
import { type PitchClass, pitchClass } from "@halflap/theory/units";
import { foreignClasses } from "./foreign.ts";
import { guideTonesOf } from "./guide-tones.ts";
import type { Segment } from "./segments.ts";
import { soundingChord, type Tune } from "./tune.ts";

/**
 * Whether the lane's grip spells the chart's chord as a shape, all guide tones and nothing else,
 * while the capo lifts it to something that the chart does not say. Only where frets are counted
 * from the capo: counted from the nut, a forgotten capo shows as frets behind it.
 */
export function forgetsCapo(segment: Segment, tune: Tune, lane: LaneId): boolean {
  const { capo, fretsFrom } = tune.setups[lane];
  const pitches = segment[lane];
  const chord = soundingChord(segment);
  if (capo === 0 || fretsFrom !== "capo" || pitches === undefined || chord === undefined) {
    return false;
  }
  const shape = pitches.map((pitch) => pitchClass(pitch - capo));
  return foreignClasses(pitches, chord).length > 0 && isSpelled(chord, shape);
}

function isSpelled(chord: SoundingChord, classes: readonly PitchClass[]): boolean {
  const guideTones = guideTonesOf(chord);
  return (
    guideTones.length > 0 &&
    guideTones.every((tone) => classes.includes(tone.pitchClass)) &&
    foreignClasses(classes, chord).length === 0
  );
}
