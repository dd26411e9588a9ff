/** All grips of a chord on the neck: complete and sound under a guitarist's wishes. */
import type { ChordTone, SoundingChord } from "./chord.ts";
import { pretty } from "./display.ts";
import { type Hand, usualHand } from "./fingers.ts";
import { type Grip, gripPitches, type StringNumber } from "./grip.ts";
import { classSet, demandsOf } from "./grip-demands.ts";
import { type Fault, faultSentence, faultsOf, type Sieve, toneWords } from "./grip-faults.ts";
import { gripsThrough } from "./grip-search.ts";
import { type Setup, stringNumbers } from "./tuning.ts";
import { type Fret, fret, type Millimetres, millimetres, pitchClass } from "./units.ts";

/** What a guitarist asks of the grips that are offered. */
export type Wishes = {
  /** The strings that may sound; undefined = all. */
  readonly strings?: readonly StringNumber[] | undefined;
  /** Bounds for stopped frets, counted from the nut; undefined = the whole neck. */
  readonly lowestFret?: Fret | undefined;
  readonly highestFret?: Fret | undefined;
  /** How many strings sound. */
  readonly sounding: { readonly min: number; readonly max: number };
  /** Whether the root may be left to the bass. */
  readonly rootless: boolean;
  readonly openStrings: boolean;
  /**
   * Frets from nut or capo up to which fingers may stop strings beside an open one; undefined =
   * anywhere.
   */
  readonly openReach?: number | undefined;
  /** Whether a string between two sounding ones may be silent. */
  readonly innerMutes: boolean;
  /** The widest stretch; the hand's own limit holds besides. */
  readonly spanMax: Millimetres;
  /** What the hand can do; undefined = the usual one. */
  readonly hand?: Hand | undefined;
  /** Whether colours that the symbol does not name may sound. */
  readonly tensions: boolean;
  /** Whether a tone may sound on two strings, or only where there are more strings than tones. */
  readonly doublings: "any" | "needed";
};

/**
 * Open strings belong to the first position; further up the neck they stand out from the stopped
 * ones.
 */
const firstPosition = 4;

/** Frets 1 to 4 on a 648 mm scale lie 97.3 mm apart: a stretch without strain. */
const easySpan = millimetres(98);

/**
 * Small voicings for two guitars: two to four neighbouring strings up to the 15th fret, each tone
 * once. Two strings may colour the chord, three and more have to make it; with a bass player the
 * root may go.
 */
export function everydayWishes(hasBass: boolean): Wishes {
  return {
    highestFret: fret(15),
    sounding: { min: 2, max: 4 },
    rootless: hasBass,
    openStrings: true,
    openReach: firstPosition,
    innerMutes: false,
    spanMax: easySpan,
    tensions: true,
    doublings: "needed",
  };
}

/**
 * Grips of three to six strings without strain, doublings and inner mutes too, in the symbol's
 * own tones.
 */
export function fullWishes(hasBass: boolean): Wishes {
  return {
    sounding: { min: 3, max: 6 },
    rootless: hasBass,
    openStrings: true,
    openReach: firstPosition,
    innerMutes: true,
    spanMax: easySpan,
    tensions: false,
    doublings: "any",
  };
}

/** Why a grip is not offered: what kind of fault it is, and a sentence for the player. */
export type Reason = { readonly kind: Fault["kind"]; readonly sentence: string };

/** Answers kept, so that asking again costs nothing: more than a tune has different chords. */
const answersMax = 64;
const answers = new Map<string, readonly Grip[]>();

/**
 * Every grip that makes the chord within the wishes, and no other: low positions first, then
 * fewer strings, then fret by fret from the lowest string. Open strings are written 0. SPEC.md
 * T11 to T14.
 */
export function gripsOf(chord: SoundingChord, setup: Setup, wishes: Wishes): readonly Grip[] {
  const question = JSON.stringify([chord.symbol, setup, wishes]);
  const known = answers.get(question);
  if (known !== undefined) return known;
  const grips = gripsThrough(sieveOf(chord, setup, wishes));
  const [oldest] = answers.keys();
  if (answers.size >= answersMax && oldest !== undefined) answers.delete(oldest);
  answers.set(question, grips);
  return grips;
}

/** Why the grip is not among `gripsOf`, as a sentence; undefined when it is. */
export function whyNot(
  grip: Grip,
  chord: SoundingChord,
  setup: Setup,
  wishes: Wishes,
): string | undefined {
  return reasonsAgainst(grip, chord, setup, wishes)[0]?.sentence;
}

/** Every reason why the grip is not among `gripsOf`, the weightiest first; empty when it is. */
export function reasonsAgainst(
  grip: Grip,
  chord: SoundingChord,
  setup: Setup,
  wishes: Wishes,
): readonly Reason[] {
  const sieve = sieveOf(chord, setup, wishes);
  return faultsOf(grip, sieve).map((fault) => ({
    kind: fault.kind,
    sentence: faultSentence(fault, sieve),
  }));
}

/**
 * What the grip says of its chord, as a sentence: the tones it sounds, leaves out and adds.
 * undefined when it is not among `gripsOf`.
 */
export function whyOffered(
  grip: Grip,
  chord: SoundingChord,
  setup: Setup,
  wishes: Wishes,
): string | undefined {
  if (reasonsAgainst(grip, chord, setup, wishes).length > 0) return undefined;
  const heard = classSet(gripPitches(grip, setup).map(pitchClass));
  const sounds = (tone: ChordTone) => (heard & (1 << tone.pitchClass)) !== 0;
  const said = [
    ["sounds", chord.tones.filter(sounds)],
    ["leaves out", chord.tones.filter((tone) => !sounds(tone))],
    ["adds", chord.tensions.filter(sounds)],
  ] as const;
  const parts = said.flatMap(([verb, tones]) =>
    tones.length === 0 ? [] : [`${verb} ${listed(tones.map(toneWords))}`],
  );
  const isBassApart = chord.tones.every((tone) => tone.pitchClass !== chord.bassClass);
  if (isBassApart && (heard & (1 << chord.bassClass)) !== 0) {
    parts.push(`has its bass (${pretty(chord.bass)})`);
  }
  return `For ${pretty(chord.symbol)} it ${parts.join(", ")}.`;
}

/** "a", "a and b", "a, b and c". */
function listed(words: readonly string[]): string {
  const last = words.at(-1) ?? "";
  return words.length < 2 ? last : `${words.slice(0, -1).join(", ")} and ${last}`;
}

function sieveOf(chord: SoundingChord, setup: Setup, wishes: Wishes): Sieve {
  const hand = wishes.hand ?? usualHand;
  return {
    chord,
    setup,
    hand,
    demands: demandsOf(chord, wishes.rootless, wishes.tensions),
    strings: wishes.strings ?? stringNumbers,
    lowest: Math.max(setup.capo + 1, wishes.lowestFret ?? 0),
    highest: Math.min(setup.lastFret, wishes.highestFret ?? setup.lastFret),
    spanMax: Math.min(wishes.spanMax, hand.spanMax),
    sounding: wishes.sounding,
    openStrings: wishes.openStrings,
    openHighest: setup.capo + (wishes.openReach ?? setup.lastFret),
    innerMutes: wishes.innerMutes,
    doublings: wishes.doublings,
  };
}
