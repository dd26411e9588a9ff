/** R10: a semitone or a minor ninth between the parts; R11 when it is the 4th against the 3rd. */
import { type LaneId, laneIds } from "@halflap/board/board";
import type { SoundingChord } from "@halflap/theory/chord";
import { type MidiNote, type PitchClass, pitchClass } from "@halflap/theory/units";
import { type Hit, notesOf } from "../hit.ts";
import { isPair, type PairSegment, type Segment } from "../segments.ts";
import { exceeds, type Limits, rubDistance } from "../thresholds.ts";
import { quartersOf, soundingChord, type Tune } from "../tune.ts";
import { listed, noteWord, sentence } from "../words.ts";

/** Two notes, one of each lane, that rub. */
export type Rub = {
  readonly upper: MidiNote;
  readonly lower: MidiNote;
  readonly distance: number;
  /** The symbol asks for both notes. */
  readonly declared: boolean;
};

/**
 * Rubs that the symbol does not ask for are a fix; a semitone that it does ask for is a note. A
 * chord that only passes may rub.
 */
export function rub(segment: Segment, tune: Tune): readonly Hit[] {
  if (!isPair(segment) || !isLong(segment.slot.length, tune.limits)) return [];
  const chord = soundingChord(segment);
  const rubs = rubsBetween(segment, chord, tune);
  const wrong = rubs.filter((pair) => !pair.declared);
  if (wrong.length === 0) {
    const close = rubs.filter((pair) => pair.distance === rubDistance.semitone);
    return close.length > 0 ? [declaredRub(segment, tune, close)] : [];
  }
  const clash = chord === undefined ? [] : wrong.filter((pair) => suspendedLane(pair, chord));
  const plain = wrong.filter((pair) => !clash.includes(pair));
  return [
    ...(plain.length > 0 ? [plainRub(segment, tune, plain)] : []),
    ...(chord !== undefined && clash.length > 0
      ? [fourthAgainstThird(segment, tune, chord, clash)]
      : []),
  ];
}

/** Whether something lasts longer than what only passes. */
export function isLong(stretch: number, limits: Pick<Limits, "rub">): boolean {
  return exceeds(quartersOf(stretch), limits.rub);
}

function plainRub(segment: PairSegment, tune: Tune, rubs: readonly Rub[]): Hit {
  const { upper, lower } = tune.players;
  const [first, ...more] = namesOf(segment, tune, rubs);
  const rest = more.map(([a, b]) => `${a} against ${b}`);
  const also = rest.length > 0 ? `; so does ${listed(rest)}` : "";
  return {
    ...hitOf(segment, rubs),
    severity: "fix",
    words: `${sentence(upper)}'s ${first?.[0]} rubs against ${lower}'s ${first?.[1]}${also}.`,
  };
}

function declaredRub(segment: PairSegment, tune: Tune, rubs: readonly Rub[]): Hit {
  const names = namesOf(segment, tune, rubs).map(([a, b]) => `${a} and ${b}`);
  const lie = names.length > 1 ? "each lie" : "lie";
  return {
    ...hitOf(segment, rubs),
    severity: "note",
    words: `${listed(names)} ${lie} a semitone apart between you: the chord wants it.`,
  };
}

function fourthAgainstThird(
  segment: PairSegment,
  tune: Tune,
  chord: SoundingChord,
  rubs: readonly Rub[],
): Hit {
  const fourthIn = laneIds.find((lane) => rubs.some((pair) => suspendedLane(pair, chord) === lane));
  const thirdIn = fourthIn === "upper" ? "lower" : "upper";
  const [fourth, third] = [5, 4].map((distance) =>
    noteWord(pitchClass(chord.rootClass + distance), chord, tune.key),
  );
  const one = sentence(tune.players[fourthIn ?? "upper"]);
  const other = tune.players[thirdIn];
  return {
    ...hitOf(segment, rubs),
    rule: "R11",
    severity: "fix",
    words: `${one} holds the 4th (${fourth}) against ${other}'s 3rd (${third}): agree on one.`,
  };
}

function hitOf(segment: PairSegment, rubs: readonly Rub[]) {
  const nearest = Math.min(...rubs.map((pair) => pair.distance));
  return {
    rule: "R10",
    lanes: laneIds,
    segments: [segment],
    notes: laneIds.flatMap((lane) => {
      const pitches = new Set(rubs.map((pair) => pair[lane]));
      return notesOf(segment, lane, (pitch) => pitches.has(pitch));
    }),
    measured: nearest,
    threshold: nearest,
  } as const;
}

/** Every rub between what the lanes sound at one time; thirds that are a matter of style pass. */
export function rubsBetween(
  sounding: Readonly<Record<LaneId, readonly MidiNote[]>>,
  chord: SoundingChord | undefined,
  { blueNotes }: Pick<Tune, "blueNotes">,
): readonly Rub[] {
  return [...new Set(sounding.upper)].flatMap((upper) =>
    [...new Set(sounding.lower)].flatMap((lower) => {
      const distance = Math.abs(upper - lower);
      if (distance !== rubDistance.semitone && distance !== rubDistance.minorNinth) return [];
      if (blueNotes && chord !== undefined && isBlue(chord, upper, lower)) return [];
      const declared = chord !== undefined && isDeclared(chord, upper, lower, distance);
      return [{ upper, lower, distance, declared }];
    }),
  );
}

/** Both notes are in the symbol, or it is a minor ninth that a diminished seventh chord takes. */
function isDeclared(
  chord: SoundingChord,
  upper: MidiNote,
  lower: MidiNote,
  distance: number,
): boolean {
  const asked = new Set<PitchClass>([
    ...chord.tones.map((tone) => tone.pitchClass),
    chord.bassClass,
  ]);
  if (asked.has(pitchClass(upper)) && asked.has(pitchClass(lower))) return true;
  const isDiminishedSeventh = chord.tones.some((tone) => tone.degree === "bb7");
  return isDiminishedSeventh && distance === rubDistance.minorNinth;
}

/** The minor third against the major third of the chord. */
function isBlue(chord: SoundingChord, upper: MidiNote, lower: MidiNote): boolean {
  const third = chord.tones.find((tone) => tone.degree === "3")?.pitchClass;
  const classes = [pitchClass(upper), pitchClass(lower)];
  return third !== undefined && classes.includes(third) && classes.includes(pitchClass(third - 1));
}

/** The lane with the 4th while the other has the major 3rd; undefined for any other rub. */
export function suspendedLane(pair: Rub, chord: SoundingChord): LaneId | undefined {
  const [third, fourth] = [pitchClass(chord.rootClass + 4), pitchClass(chord.rootClass + 5)];
  if (pitchClass(pair.upper) === fourth && pitchClass(pair.lower) === third) return "upper";
  if (pitchClass(pair.lower) === fourth && pitchClass(pair.upper) === third) return "lower";
  return undefined;
}

/** The names of the rubbing notes, upper then lower, each pair of names once. */
function namesOf(
  segment: PairSegment,
  tune: Tune,
  rubs: readonly Rub[],
): readonly (readonly [string, string])[] {
  const chord = soundingChord(segment);
  const word = (pitch: MidiNote) => noteWord(pitchClass(pitch), chord, tune.key);
  const pairs = rubs.map((pair): readonly [string, string] => [word(pair.upper), word(pair.lower)]);
  return [...new Map(pairs.map((names) => [names.join(), names])).values()];
}
