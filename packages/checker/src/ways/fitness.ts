/** Grips that could stand in a slot, by how well they get on with what the other lane plays. */
import type { SoundingChord } from "@halflap/theory/chord";
import { type Grip, gripPitches, printGrip } from "@halflap/theory/grip";
import { difficultyOf } from "@halflap/theory/hand";
import { everydayWishes, gripsOf } from "@halflap/theory/neck";
import { threadsBetween } from "@halflap/theory/threads";
import { stringNumbers } from "@halflap/theory/tuning";
import { type MidiNote, type PitchClass, pitchClass } from "@halflap/theory/units";
import { foreignClasses } from "../foreign.ts";
import { guideTonesOf } from "../guide-tones.ts";
import { slotRules } from "../rules/catalogue.ts";
import { mean, type Segment } from "../segments.ts";
import { reaches, rubDistance } from "../thresholds.ts";
import type { Tune } from "../tune.ts";
import { otherLane, type Place, type Situation } from "./candidate.ts";
import { oddnessOf } from "./oddness.ts";
import { weights } from "./weights.ts";

/** A grip for a slot with what is known of it without checking the board. */
export type Fit = {
  readonly grip: Grip;
  readonly text: string;
  /** The strings it sounds, lowest first: "4-3-2". */
  readonly strings: string;
  readonly pitches: readonly MidiNote[];
  /** What the rules about the slot, and its registers, would weigh. */
  readonly clash: number;
  /** What a bandmate would ask about it: colours that nobody named, pairs that say no chord. */
  readonly odd: number;
  readonly hardness: number;
  /** To the grips beside it, in semitones. */
  readonly motion: number;
};

/** So many grips of each string set are looked at closely. */
const closeLooks = 2;
/** One semitone of motion weighs so much beside a clash, and one finger's worth of effort. */
const motionWeight = 0.2;
const hardnessWeight = 0.3;

/** How good a grip is in its slot: the less the better. */
export function costOf(fit: Fit): number {
  return fit.clash + fit.odd + fit.motion * motionWeight + fit.hardness * hardnessWeight;
}

/** The cost of going from one grip to another. */
export function linkCost(from: readonly MidiNote[], to: readonly MidiNote[]): number {
  return threadsBetween(from, to).total * motionWeight;
}

/** Grips for the slot in the lane, the best of each string set asked for, the best first. */
export function fitsFor(
  place: Place,
  situation: Situation,
  isAsked: (strings: string) => boolean,
): readonly Fit[] {
  const { chord } = place;
  if (chord === undefined) return [];
  const bySet = new Map<string, Rough[]>();
  const around = aroundOf(place, chord, situation);
  for (const grip of poolFor(place, chord, situation)) {
    const rough = roughOf(grip, around, situation);
    const group = bySet.get(rough.strings);
    if (group === undefined) bySet.set(rough.strings, [rough]);
    else group.push(rough);
  }
  return [...bySet]
    .filter(([strings]) => isAsked(strings))
    .flatMap(([, group]) => group.sort((a, b) => a.promise - b.promise).slice(0, closeLooks))
    .map((rough) => closely(rough, place, situation))
    .sort((one, other) => costOf(one) - costOf(other) || (one.text < other.text ? -1 : 1));
}

/** The neck's small grips, and what the hand holds before and after where it is this chord too. */
function poolFor(place: Place, chord: SoundingChord, { board, setup }: Situation): readonly Grip[] {
  const known = new Set<string>();
  const beside = [place.before, place.after].flatMap((grip) =>
    grip && foreignClasses(gripPitches(grip, setup), chord).length === 0 ? grip : [],
  );
  return [...gripsOf(chord, setup, everydayWishes(board.hasBass)), ...beside].filter((grip) => {
    const text = printGrip(grip);
    const isNew = !known.has(text) && (place.grip === undefined || text !== printGrip(place.grip));
    known.add(text);
    return isNew;
  });
}

type Rough = Pick<Fit, "grip" | "strings" | "pitches" | "motion" | "odd"> & {
  readonly promise: number;
};

/** What every grip of a slot is held against. */
type Around = {
  readonly chord: SoundingChord;
  readonly before: readonly MidiNote[] | undefined;
  readonly after: readonly MidiNote[] | undefined;
  readonly others: readonly MidiNote[];
  /** Guide tones that the other lane leaves to this one. */
  readonly wanted: readonly PitchClass[];
};

function aroundOf(place: Place, chord: SoundingChord, { lane, setup }: Situation): Around {
  const others = place.segment[otherLane(lane)] ?? [];
  const heard = new Set(others.map(pitchClass));
  return {
    chord,
    before: place.before && gripPitches(place.before, setup),
    after: place.after && gripPitches(place.after, setup),
    others,
    wanted: guideTonesOf(chord)
      .map((tone) => tone.pitchClass)
      .filter((tone) => !heard.has(tone)),
  };
}

/** A first look, cheap enough for hundreds of grips. */
function roughOf(
  grip: Grip,
  { chord, before, after, others, wanted }: Around,
  { setup, tune }: Situation,
): Rough {
  const pitches = gripPitches(grip, setup);
  const strings = stringNumbers.filter((_, index) => grip.frets[index] !== undefined).join("-");
  const motion =
    (before ? threadsBetween(before, pitches).total : 0) +
    (after ? threadsBetween(pitches, after).total : 0);
  const odd = oddnessOf(pitches, chord);
  let promise = odd + motion * motionWeight + weights.fix * overlap(pitches, others);
  for (const tone of wanted) {
    if (!pitches.some((pitch) => pitchClass(pitch) === tone)) promise += weights.fix;
  }
  for (const pitch of pitches) {
    if (tune.hasBass && pitch < tune.limits.bassZone) promise += weights.look;
    if (others.includes(pitch)) promise += weights.look;
    if (others.some((other) => isRub(pitch, other))) promise += weights.fix;
  }
  return { grip, strings, pitches, motion, odd, promise };
}

function isRub(one: MidiNote, other: MidiNote): boolean {
  const distance = Math.abs(one - other);
  return distance === rubDistance.semitone || distance === rubDistance.minorNinth;
}

/** Asks the rules about the slot what they would say of the grip. */
function closely(rough: Rough, place: Place, { lane, setup, tune }: Situation): Fit {
  const others = place.segment[otherLane(lane)];
  const segment: Segment = {
    ...place.segment,
    [lane]: rough.pitches,
    grips: { ...place.segment.grips, [lane]: rough.grip },
    share: others && overlap(rough.pitches, others),
  };
  const asked: Tune = {
    ...tune,
    after: (from) => tune.after(from === segment ? place.segment : from),
  };
  const hits = slotRules.flatMap((rule) => rule(segment, asked));
  const said = hits.reduce((sum, hit) => sum + (hit.isPraise ? 0 : weights[hit.severity]), 0);
  return {
    ...rough,
    text: printGrip(rough.grip),
    clash: said + registerClash(rough.pitches, others, lane === "lower", tune),
    hardness: difficultyOf(rough.grip, setup).total,
  };
}

/** What rules about runs would say if all slots were as this one. */
function registerClash(
  pitches: readonly MidiNote[],
  others: readonly MidiNote[] | undefined,
  isLower: boolean,
  { limits }: Tune,
): number {
  if (others === undefined) return 0;
  const share = overlap(pitches, others);
  const [low, high] = isLower ? [pitches, others] : [others, pitches];
  const crossed = mean(low) > mean(high) ? weights.look : 0;
  if (reaches(share, limits.overlapFix)) return weights.fix + crossed;
  return (reaches(share, limits.overlapLook) ? weights.look : 0) + crossed;
}

/** The share of the narrower part that lies within the other, as R01 measures it. */
function overlap(one: readonly MidiNote[], other: readonly MidiNote[]): number {
  if (one.length === 0 || other.length === 0) return 0;
  const [lowA = 0, highA = 0] = [one[0], one.at(-1)];
  const [lowB = 0, highB = 0] = [other[0], other.at(-1)];
  const shared = Math.min(highA, highB) - Math.max(lowA, lowB);
  return Math.max(0, shared) / Math.max(1, Math.min(highA - lowA, highB - lowB));
}
