/** R03: both grips sound (almost) the same, whatever the hands look like. */
import { type Hit, notesOfBoth } from "../hit.ts";
import { hasAim, isPair, type PairSegment, type Segment } from "../segments.ts";
import { reaches } from "../thresholds.ts";
import { soundingChord, type Tune } from "../tune.ts";
import { listed, pitchWord } from "../words.ts";
import { sharedPitches } from "./r02-same-pitch.ts";

/**
 * Compares the sets of sounding pitches, never fret strings: under another capo equal frets are
 * another chord.
 */
export function sameSound(segment: Segment, tune: Tune): readonly Hit[] {
  if (!isPair(segment) || hasAim(segment, "unison")) return [];
  const shared = sharedPitches(segment).length;
  const alone = pitchesAlone(segment);
  const likeness = shared / (shared + alone.length);
  if (!reaches(likeness, tune.limits.sameSound)) return [];
  const chord = soundingChord(segment);
  const names = alone.map((pitch) => pitchWord(pitch, chord, tune.key));
  return [
    {
      rule: "R03",
      severity: "fix",
      lanes: ["upper", "lower"],
      segments: [segment],
      notes: notesOfBoth(segment),
      measured: likeness,
      threshold: tune.limits.sameSound,
      words:
        names.length === 0
          ? "You both play exactly the same notes: it sounds like one guitar."
          : `You both play one and the same sound: only ${listed(names)} is not doubled.`,
    },
  ];
}

/** The pitches that sound in one part only, in ascending order. */
function pitchesAlone(segment: PairSegment) {
  const [upper, lower] = [new Set(segment.upper), new Set(segment.lower)];
  return [...new Set([...upper, ...lower])]
    .filter((pitch) => !upper.has(pitch) || !lower.has(pitch))
    .sort((a, b) => a - b);
}
