/** R17: a lane jumps where a nearer grip lies at hand. */
import { type LaneId, laneIds } from "@halflap/board/board";
import type { SoundingChord } from "@halflap/theory/chord";
import { pretty } from "@halflap/theory/display";
import { type Grip, gripNotes, gripPitches, printGrip } from "@halflap/theory/grip";
import { difficultyOf } from "@halflap/theory/hand";
import { fullWishes, gripsOf } from "@halflap/theory/neck";
import { threadsBetween } from "@halflap/theory/threads";
import type { Setup, StringNumber } from "@halflap/theory/tuning";
import { type MidiNote, pitchClass } from "@halflap/theory/units";
import { type BarRule, barByBar, isSamePassage } from "../bar-by-bar.ts";
import { isLinked, movesFrom } from "../hand-moves.ts";
import { type Hit, notesOf } from "../hit.ts";
import type { Segment } from "../segments.ts";
import { exceeds, reaches } from "../thresholds.ts";
import { soundingChord, type Tune } from "../tune.ts";
import { sentence } from "../words.ts";

const octave = 12;

const inBar: BarRule = (bar, ahead, tune) => {
  const next = ahead.find((other) => isSamePassage(bar, other))?.segments[0];
  return laneIds.flatMap((lane) => {
    const moves = movesFrom(bar, ahead, lane, tune.setups);
    return bar.segments.flatMap((from, index) => {
      const to = bar.segments[index + 1] ?? next;
      if (to === undefined || !isLinked(moves, from, to)) return [];
      return jump(from, to, lane, tune) ?? [];
    });
  });
};

/** One hit for each slot into which a lane jumps from grip to grip within the passage. */
export const jumpyLinking = barByBar(inBar);

function jump(from: Segment, to: Segment, lane: LaneId, tune: Tune): Hit | undefined {
  const { limits } = tune;
  const chord = soundingChord(to);
  const [before, after, grip] = [from[lane], to[lane], to.grips[lane]];
  if (chord === undefined || grip === undefined) return undefined;
  if (before === undefined || after === undefined) return undefined;
  const cost = semitonesAVoice(before, after);
  if (!exceeds(cost, limits.jump)) return undefined;
  const nearer = nearest(before, grip, chord, lane, tune);
  if (nearer === undefined) return undefined;
  return {
    rule: "R17",
    severity: "look",
    lanes: [lane],
    segments: [to],
    notes: notesOf(to, lane),
    measured: cost,
    threshold: limits.jump,
    words: `${sentence(tune.players[lane])} jumps into ${pretty(chord.symbol)}: \
${printGrip(nearer)} on the same strings lies nearer.`,
  };
}

/**
 * The motion from one grip to another in semitones a voice: the least there is with equally many
 * voices, that of lowest and highest otherwise. Both ascend.
 */
export function semitonesAVoice(before: readonly MidiNote[], after: readonly MidiNote[]): number {
  if (before.length === after.length) return threadsBetween(before, after).total / after.length;
  const bottom = Math.abs((after[0] ?? 0) - (before[0] ?? 0));
  const top = Math.abs((after.at(-1) ?? 0) - (before.at(-1) ?? 0));
  return (bottom + top) / 2;
}

/**
 * The easiest grip of the chord on the same strings that is reached with little motion. The chord's
 * bass has to stay lowest where it is low down or nobody plays the bass: turned over it would be
 * another chord to the ear.
 */
function nearest(
  before: readonly MidiNote[],
  grip: Grip,
  chord: SoundingChord,
  lane: LaneId,
  tune: Tune,
): Grip | undefined {
  const setup = tune.setups[lane];
  const isOnBass = (pitches: readonly MidiNote[]) =>
    pitches.slice(0, 1).some((pitch) => pitchClass(pitch) === chord.bassClass);
  const own = gripPitches(grip, setup);
  const isLow = own.slice(0, 1).some((pitch) => pitch < tune.limits.bassZone);
  const mustBeOnBass = isOnBass(own) && (isLow || !tune.hasBass);
  if (mustBeOnBass && !isBassNear(before, own.length, chord, tune)) return undefined;
  const strings = gripNotes(grip, setup).map(({ string }) => string);
  const easiest = onStrings(chord, setup, strings, tune.hasBass).find(({ pitches }) => {
    if (mustBeOnBass && !isOnBass(pitches)) return false;
    return reaches(tune.limits.jumpSpared, semitonesAVoice(before, pitches));
  });
  return easiest?.grip;
}

type Sounding = { readonly grip: Grip; readonly pitches: readonly MidiNote[] };

const known = new WeakMap<SoundingChord, WeakMap<Setup, Map<string, readonly Sounding[]>>>();

/** All grips of a chord on exactly these strings, the easiest first; remembered. */
function onStrings(
  chord: SoundingChord,
  setup: Setup,
  strings: readonly StringNumber[],
  hasBass: boolean,
): readonly Sounding[] {
  const ofChord = known.get(chord) ?? new WeakMap<Setup, Map<string, readonly Sounding[]>>();
  known.set(chord, ofChord);
  const ofSetup = ofChord.get(setup) ?? new Map<string, readonly Sounding[]>();
  ofChord.set(setup, ofSetup);
  const key = `${strings.join()} ${hasBass}`;
  const found = ofSetup.get(key);
  if (found !== undefined) return found;
  const wishes = {
    ...fullWishes(hasBass),
    strings,
    sounding: { min: strings.length, max: strings.length },
    innerMutes: hasInnerMute(strings),
  };
  const grips = gripsOf(chord, setup, wishes)
    .map((grip) => ({ grip, effort: difficultyOf(grip, setup).total }))
    .sort((one, other) => one.effort - other.effort)
    .map(({ grip }) => ({ grip, pitches: gripPitches(grip, setup) }));
  ofSetup.set(key, grips);
  return grips;
}

/** Whether the lowest voice could go to some octave of the bass; the search is spared where not. */
function isBassNear(
  before: readonly MidiNote[],
  voices: number,
  chord: SoundingChord,
  tune: Tune,
): boolean {
  const up = pitchClass(chord.bassClass - (before[0] ?? 0));
  const shared = before.length === voices ? voices : 2;
  return reaches(tune.limits.jumpSpared * shared, Math.min(up, octave - up));
}

function hasInnerMute(strings: readonly StringNumber[]): boolean {
  return Math.max(...strings) - Math.min(...strings) + 1 > strings.length;
}
