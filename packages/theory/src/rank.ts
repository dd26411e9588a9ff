/** Puts grips in the order of how well they link to the grips before and after. */
import type { SoundingChord } from "./chord.ts";
import { type Grip, gripPitches } from "./grip.ts";
import { type Difficulty, difficultyOf } from "./hand.ts";
import { handShift, type Threads, threadsBetween } from "./threads.ts";
import type { Setup } from "./tuning.ts";
import {
  type MidiNote,
  type Millimetres,
  millimetres,
  pitchClass,
  type Semitones,
  semitones,
} from "./units.ts";

/** A grip with what it costs to get there and on. */
export type RankedGrip = {
  readonly grip: Grip;
  /** From the grip before and on to the one after, all voices together. */
  readonly motion: Semitones;
  /** Voices held from before and on to after. */
  readonly held: number;
  readonly shift: Millimetres;
  readonly difficulty: Difficulty;
  /**
   * The way from the grip before, or else on to the one after: "two semitones, one note held,
   * same strings".
   */
  readonly words: string;
};

export type Ranking = {
  readonly candidates: readonly Grip[];
  readonly setup: Setup;
  readonly before?: Grip | undefined;
  readonly after?: Grip | undefined;
  /** The chord, if known: without neighbours it says which grips are plain. */
  readonly chord?: SoundingChord | undefined;
};

/**
 * The candidates with the smallest motion first, then the smallest shift of the hand, then the
 * easiest; equals keep their order. Where there is nothing to link to, grips that say the chord
 * plainly in the middle of the neck come first. SPEC.md T16.
 */
export function rankGrips(ranking: Ranking): readonly RankedGrip[] {
  const neighbours = {
    before: neighbour(ranking.before, ranking.setup),
    after: neighbour(ranking.after, ranking.setup),
  };
  const hasNeighbour = ranking.before !== undefined || ranking.after !== undefined;
  return ranking.candidates
    .map((grip) => {
      const each = ranked(grip, ranking.setup, neighbours);
      const bareness = hasNeighbour ? 0 : barenessOf(grip, each.difficulty, ranking);
      return { ranked: each, bareness };
    })
    .sort(
      (one, other) =>
        one.bareness - other.bareness ||
        one.ranked.motion - other.ranked.motion ||
        one.ranked.shift - other.ranked.shift ||
        one.ranked.difficulty.total - other.ranked.difficulty.total,
    )
    .map((each) => each.ranked);
}

/** A grip beside the candidates, with what it sounds. */
type Neighbour = { readonly grip: Grip; readonly pitches: readonly MidiNote[] };

function neighbour(grip: Grip | undefined, setup: Setup): Neighbour | undefined {
  return grip && { grip, pitches: gripPitches(grip, setup) };
}

function ranked(
  grip: Grip,
  setup: Setup,
  { before, after }: Readonly<Record<"before" | "after", Neighbour | undefined>>,
): RankedGrip {
  const pitches = gripPitches(grip, setup);
  const into = before && threadsBetween(before.pitches, pitches);
  const onward = after && threadsBetween(pitches, after.pitches);
  const shiftIn = before ? handShift(before.grip, grip, setup) : 0;
  const shiftOn = after ? handShift(grip, after.grip, setup) : 0;
  const difficulty = difficultyOf(grip, setup);
  return {
    grip,
    motion: semitones((into?.total ?? 0) + (onward?.total ?? 0)),
    held: (into?.held ?? 0) + (onward?.held ?? 0),
    shift: millimetres(shiftIn + shiftOn),
    difficulty,
    words: wordsFor(grip, into ?? onward, (before ?? after)?.grip, difficulty),
  };
}

function wordsFor(
  grip: Grip,
  threads: Threads | undefined,
  neighbour: Grip | undefined,
  difficulty: Difficulty,
): string {
  if (threads === undefined || neighbour === undefined) return handWords(difficulty);
  const strings = sameStrings(grip, neighbour) ? "same strings" : "other strings";
  if (threads.total === 0) return `nothing moves, ${strings}`;
  const held = threads.held === 0 ? [] : [`${counted(threads.held, "note")} held`];
  return [counted(threads.total, "semitone"), ...held, strings].join(", ");
}

function handWords(difficulty: Difficulty): string {
  const { fingers, position } = difficulty;
  return position === undefined
    ? "open strings"
    : `${counted(fingers, "finger")}, first at fret ${position}`;
}

function sameStrings(one: Grip, other: Grip): boolean {
  return one.frets.every(
    (fret, index) => (fret === undefined) === (other.frets[index] === undefined),
  );
}

/** Below it the bass plays: E3, a working line (common practice, no source). */
const bassZone = 52;
/** From here on the frets are narrow and the strings thin; a start is sought below it. */
const highPosition = 10;

/**
 * How far a grip is from a plain start: 0 for three strings or more, in the symbol's own tones,
 * above the bass and below the high frets; else more.
 */
function barenessOf(grip: Grip, difficulty: Difficulty, { setup, chord }: Ranking): number {
  const plain = new Set(chord?.tones.map((tone) => tone.pitchClass));
  const pitches = gripPitches(grip, setup);
  const colours = chord ? pitches.filter((pitch) => !plain.has(pitchClass(pitch))).length : 0;
  const low = pitches.filter((pitch) => pitch < bassZone).length;
  const isHigh = (difficulty.position ?? 0) >= highPosition;
  return (pitches.length < 3 ? 6 : 0) + colours + low + (isHigh ? 1 : 0);
}

const numberWords = "no one two three four five six seven eight nine ten eleven twelve".split(" ");

/** "one semitone", "13 semitones": small numbers in words, as they are spoken. */
function counted(count: number, noun: string): string {
  return `${numberWords[count] ?? count} ${noun}${count === 1 ? "" : "s"}`;
}
