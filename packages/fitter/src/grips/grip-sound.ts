/** What a grip is to a chord, in numbers that pairs of grips are compared by. */
import type { LaneId } from "@halflap/board/board";
import { coloursOf, isContradiction } from "@halflap/checker/colours";
import { foreignClasses } from "@halflap/checker/foreign";
import { isMinorTriadThird } from "@halflap/checker/guide-tone-octaves";
import { guideTonesOf } from "@halflap/checker/guide-tones";
import { leadingClass } from "@halflap/checker/leading-tone";
import { bareWeight, isBare, oddnessOf } from "@halflap/checker/oddness";
import type { Frame } from "@halflap/checker/tune";
import type { ChordTone, SoundingChord } from "@halflap/theory/chord";
import { type MidiNote, midiNote, pitchClass } from "@halflap/theory/units";
import { type Faults, faultsOf } from "./grip-faults.ts";
import type { HeldGrip, HeldGrips } from "./held-grip.ts";
import { kindsOf } from "./kinds.ts";
import { type MudReach, mudReachOf, noMud } from "./mud-reach.ts";
import { type PitchSet, pitchSet } from "./pitch-set.ts";
import { type RubReach, rubReachOf } from "./rub-reach.ts";
import { makeShelf } from "./shelf.ts";

export type GripSound = {
  readonly held: HeldGrip;
  /** The guide tones that it sounds, and that it has on top: one bit each, in their order. */
  readonly guides: number;
  readonly topGuide: number;
  /** Strings with the note that wants to move up. */
  readonly leading: number;
  /** Classes that colour the chord, and the classes that would contradict them. */
  readonly colours: number;
  readonly contradicted: number;
  /** What it rubs with. */
  readonly rubs: RubReach;
  /** What it makes mud with; nothing where its capo is forgotten. */
  readonly mud: MudReach;
  /** Strings in the bass player's zone, and whether one of them makes another bass note. */
  readonly low: number;
  readonly isWrongBass: boolean;
  /** In the checker's points, without those for a bare pair. */
  readonly odd: number;
  /** Two strings that say nothing of the chord; and whether it says all that makes the chord. */
  readonly isBare: boolean;
  readonly tellsAll: boolean;
  readonly faults: Faults;
};

/** A chord with what all its grips are asked for. */
export type ChordQuestion = {
  readonly chord: SoundingChord;
  /** 3rd, 7th and the like, in order; those that rules about doubling leave alone are left out. */
  readonly guides: readonly ChordTone[];
  /** Every pitch of each of them. */
  readonly guidePitches: readonly PitchSet[];
  /** The classes that make the chord, and those that the symbol allows. */
  readonly making: number;
  readonly allowed: number;
};

/** The grips of a lane as they sound for a chord. */
export type LaneSounds = {
  /** Equal sounds have equal numbers. */
  readonly id: number;
  readonly list: HeldGrips;
  readonly sounds: readonly GripSound[];
  /**
   * One grip for each way to sound, and by grip which of them it is: the same pitches lie in
   * several places of the neck, and judges of pairs hear no difference.
   */
  readonly heard: readonly GripSound[];
  readonly heardAs: Uint16Array;
};

const allPitches = Array.from({ length: 128 }, (_, value) => midiNote(value));
const classCount = 12;

/** The question that a chord puts to its grips. */
export function questionOf(chord: SoundingChord): ChordQuestion {
  const guides = guideTonesOf(chord).filter((tone) => !isMinorTriadThird(chord, tone));
  const classes = allPitches.slice(0, classCount);
  const foreign = new Set<number>(foreignClasses(classes, chord));
  return {
    chord,
    guides,
    guidePitches: guides.map((tone) =>
      pitchSet(allPitches.filter((pitch) => pitchClass(pitch) === tone.pitchClass)),
    ),
    making: bitsOf(guideTonesOf(chord).map((tone) => tone.pitchClass)),
    allowed: bitsOf(classes.filter((value) => !foreign.has(value))),
  };
}

const lists = makeShelf<LaneSounds>(256);
const singles = makeShelf<LaneSounds>(2048);
const frames = new WeakMap<Frame, number>();
const frameNumbers = new Map<string, number>();
let soundsMade = 0;

/** How the grips of a lane sound for a chord; remembered. */
export function laneSounds(
  list: HeldGrips,
  question: ChordQuestion,
  lane: LaneId,
  frame: Frame,
): LaneSounds {
  const key = `${list.id} ${lane} ${question.chord.symbol} ${frameNumber(frame)}`;
  return (list.grips.length === 1 ? singles : lists)(key, () => {
    soundsMade++;
    const sounds = soundsOf(list, question, lane, frame);
    return { id: soundsMade, list, sounds, ...heardIn(sounds) };
  });
}

function heardIn(sounds: readonly GripSound[]): Pick<LaneSounds, "heard" | "heardAs"> {
  const { first, kinds } = kindsOf(
    sounds,
    ({ held, faults }) => held.voicing * 2 + Number(faults.forgetsCapo),
  );
  return { heard: first, heardAs: kinds };
}

/** A number that is equal for frames by which rules judge alike; players' names do not count. */
export function frameNumber(frame: Frame): number {
  const last = frames.get(frame);
  if (last !== undefined) return last;
  const { key, limits, hasBass, blueNotes, distorted, setups } = frame;
  const name = JSON.stringify([key, limits, hasBass, blueNotes, distorted, setups]);
  const number = frameNumbers.get(name) ?? frameNumbers.size;
  frameNumbers.set(name, number);
  frames.set(frame, number);
  return number;
}

function soundsOf(
  { grips }: HeldGrips,
  question: ChordQuestion,
  lane: LaneId,
  frame: Frame,
): readonly GripSound[] {
  const { chord } = question;
  const hear = hearerOf(question, frame);
  const known = new Map<number, Heard>();
  return grips.map((held): GripSound => {
    const heard = known.get(held.voicing) ?? hear(held);
    known.set(held.voicing, heard);
    const isForeign = (held.classes & ~question.allowed) !== 0;
    const faults = faultsOf(held, { chord, lane, frame, isForeign });
    // Written out, not spread: there is one for every grip of every list.
    return {
      held,
      guides: heard.guides,
      topGuide: heard.topGuide,
      leading: heard.leading,
      colours: heard.colours,
      contradicted: heard.contradicted,
      rubs: heard.rubs,
      mud: faults.forgetsCapo ? noMud : heard.mud,
      low: heard.low,
      isWrongBass: heard.isWrongBass,
      odd: heard.odd,
      isBare: heard.isBare,
      tellsAll: heard.tellsAll,
      faults,
    };
  });
}

/** What all grips that sound the same pitches have in common. */
type Heard = Omit<GripSound, "held" | "faults">;

function hearerOf(question: ChordQuestion, frame: Frame): (held: HeldGrip) => Heard {
  const { chord } = question;
  const { limits, hasBass } = frame;
  const leads = leadingClass(chord);
  const tensions = coloursOf(allPitches.slice(0, classCount), chord);
  const against = tensions.map((one) =>
    bitsOf(tensions.filter((other) => isContradiction(one, other)).map((each) => each.pitchClass)),
  );
  const rubbing = rubReachOf(chord, frame);
  const muddy = mudReachOf(frame);
  return ({ pitches, classes }) => {
    const top = pitches.at(-1);
    const colours = tensions.filter((colour) => (classes & (1 << colour.pitchClass)) !== 0);
    const contradicted = colours.reduce(
      (bits, colour) => bits | (against[tensions.indexOf(colour)] ?? 0),
      0,
    );
    const bare = isBare(pitches, chord);
    return {
      guides: guideBits(question, (tone) => (classes & (1 << tone)) !== 0),
      topGuide: guideBits(question, (tone) => top !== undefined && pitchClass(top) === tone),
      leading: pitches.filter((pitch) => pitchClass(pitch) === leads).length,
      colours: bitsOf(colours.map((colour) => colour.pitchClass)),
      contradicted,
      rubs: rubbing(pitches),
      mud: muddy(pitches),
      low: hasBass ? pitches.filter((pitch) => pitch < limits.bassZone).length : 0,
      isWrongBass:
        hasBass &&
        pitches.some((pitch) => pitch < limits.bassFloor && pitchClass(pitch) !== chord.bassClass),
      odd: oddnessOf(pitches, chord) - (bare ? bareWeight : 0),
      isBare: bare,
      tellsAll: (question.making & ~classes) === 0,
    };
  };
}

function guideBits({ guides }: ChordQuestion, sounds: (tone: number) => boolean): number {
  return guides.reduce((bits, tone, place) => {
    return sounds(tone.pitchClass) ? bits | (1 << place) : bits;
  }, 0);
}

function bitsOf(classes: readonly (MidiNote | number)[]): number {
  return classes.reduce<number>((bits, value) => bits | (1 << value), 0);
}
