/** R05: the note that wants to move up is in both parts. */
import { laneIds } from "@halflap/board/board";
import type { SoundingChord } from "@halflap/theory/chord";
import { type PitchClass, pitchClass } from "@halflap/theory/units";
import { isAtRest, resolvesTo } from "../function.ts";
import { type Hit, notesOfBoth } from "../hit.ts";
import { isPair, type PairSegment, type Segment } from "../segments.ts";
import { rubDistance } from "../thresholds.ts";
import { type Harmony, nextRoots, soundingChord, type Tune } from "../tune.ts";
import { noteWord } from "../words.ts";

/**
 * The third of a dominant that resolves down a fifth, or the root of a diminished chord that
 * resolves up.
 */
export function leadingTone(segment: Segment, tune: Tune): readonly Hit[] {
  const chord = soundingChord(segment);
  if (chord === undefined || !isPair(segment)) return [];
  const leading = leadingClass(chord);
  const notes = notesOfBoth(segment, (pitch) => pitchClass(pitch) === leading);
  const isInBoth = laneIds.every((lane) => notes.some((note) => note.lane === lane));
  if (leading === undefined || !isInBoth) return [];
  if (notes.length < tune.limits.leadingTones) return [];
  const { key } = tune;
  const goals = nextRoots(tune, segment, chord).filter(
    (next) => resolvesTo(chord, next.chord) && !isAtRest(chord, next.chord, key),
  );
  const parallel = goals.find((next) => bothStepUp(segment, leading, next, tune));
  const goal = parallel ?? goals[0];
  if (goal === undefined) return [];
  const name = noteWord(leading, chord, key);
  const above = noteWord(pitchClass(leading + 1), goal.chord, key);
  return [
    {
      rule: "R05",
      severity: parallel ? "fix" : "look",
      lanes: ["upper", "lower"],
      segments: [segment],
      notes,
      measured: notes.length,
      threshold: tune.limits.leadingTones,
      words: parallel
        ? `${name} is in both parts, and you both move up to ${above} together.`
        : `${name} wants to move up to ${above}, and it is in both parts.`,
    },
  ];
}

/** The class that wants to move up a semitone; undefined where none does. */
export function leadingClass(chord: SoundingChord): PitchClass | undefined {
  switch (chord.family) {
    case "dominant":
      return chord.tones.find((tone) => tone.degree === "3")?.pitchClass;
    case "diminished":
    case "half-diminished":
      return chord.rootClass;
    default:
      return undefined;
  }
}

/**
 * Whether the goal follows at once and in each lane a leading tone has a note a semitone above to
 * go to.
 */
function bothStepUp(segment: PairSegment, leading: PitchClass, goal: Harmony, tune: Tune): boolean {
  if (!tune.after(segment).includes(goal.segment)) return false;
  return laneIds.every((lane) =>
    segment[lane].some(
      (pitch) =>
        pitchClass(pitch) === leading &&
        goal.segment[lane]?.some((next) => next === pitch + rubDistance.semitone),
    ),
  );
}
