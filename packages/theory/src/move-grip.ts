/** A grip moved to another key: along the neck where it can, else the nearest grip. SPEC.md T47. */
import type { Chord, SoundingChord } from "./chord.ts";
import { type Grip, gripOf, gripPitches, printGrip } from "./grip.ts";
import { difficultyOf, innerMutesOf, placesOf, whyUnplayable } from "./hand.ts";
import { everydayWishes, fullWishes, gripsOf, type Wishes } from "./neck.ts";
import { threadsBetween } from "./threads.ts";
import { isOpen, type Setup, typedFret } from "./tuning.ts";
import { fret, type MidiNote, midiNote, midiNoteMax, type Semitones } from "./units.ts";

/** What became of a grip. */
export type MovedGrip =
  /** The same shape elsewhere; `octave` is how many octaves beside the interval it went. */
  | { readonly kind: "moved"; readonly grip: Grip; readonly octave: -1 | 0 | 1 }
  /** It can't be moved: grips of the new chord in its place, the nearest first. */
  | { readonly kind: "replaced"; readonly choices: readonly Grip[] }
  /** It can't be moved, and there is nothing in its place. */
  | { readonly kind: "lost" };

/** So many replacements are offered. */
export const replacementsMax = 5;

const octave = 12;
const smallGrip = 4;

/**
 * The grip for the same chord an interval away, `chord` being the new one. Every string moves by
 * the interval, open strings too, so that an open shape can go up but not below the nut. What
 * leaves the neck or the hand is replaced by grips of the chord in the same register: those first
 * that need the fewest semitones from what the old one would sound, the least effort, and the same
 * strings, each counting alike. Without a chord a stopped grip goes an octave beside.
 */
export function moveGrip(
  grip: Grip,
  setup: Setup,
  by: Semitones,
  chord: Chord | undefined,
  hasBass: boolean,
): MovedGrip {
  const moved = alongTheNeck(grip, setup, by);
  if (moved !== undefined) return { kind: "moved", grip: moved, octave: 0 };
  const choices = chord?.kind === "chord" ? nearestGrips(grip, setup, by, chord, hasBass) : [];
  if (choices.length > 0) return { kind: "replaced", choices };
  for (const beside of hasOpenStrings(grip, setup) ? [] : ([-1, 1] as const)) {
    const far = alongTheNeck(grip, setup, by + beside * octave);
    if (far !== undefined) return { kind: "moved", grip: far, octave: beside };
  }
  return { kind: "lost" };
}

/** Whether the grip leans on the nut or the capo. */
export function hasOpenStrings(grip: Grip, setup: Setup): boolean {
  return grip.frets.some((played) => played !== undefined && isOpen(setup, played));
}

/** All places moved by semitones; undefined when one leaves the neck or the hand can't hold it. */
function alongTheNeck(grip: Grip, setup: Setup, by: number): Grip | undefined {
  const places = placesOf(grip, setup);
  const isWhole = places.every(
    (place, index) => (place === undefined) === (grip.frets[index] === undefined),
  );
  const isOnNeck = places.every(
    (place) => place === undefined || (place + by >= setup.capo && place + by <= setup.lastFret),
  );
  if (!isWhole || !isOnNeck) return undefined;
  const moved = gripOf(
    places.map((place) => (place === undefined ? undefined : typedFret(setup, fret(place + by)))),
  );
  return whyUnplayable(moved, setup) === undefined ? moved : undefined;
}

function soundingAt(pitches: readonly MidiNote[], by: number): readonly MidiNote[] {
  return pitches.map((pitch) => midiNote(Math.min(midiNoteMax, Math.max(0, pitch + by))));
}

function nearestGrips(
  grip: Grip,
  setup: Setup,
  by: Semitones,
  chord: SoundingChord,
  hasBass: boolean,
): readonly Grip[] {
  const wanted = soundingAt(gripPitches(grip, setup), by);
  const alike = gripsOf(chord, setup, wishesFor(grip, wanted.length, hasBass));
  const candidates = alike.length > 0 ? alike : gripsOf(chord, setup, everydayWishes(hasBass));
  return candidates
    .map((candidate) => ({
      candidate,
      cost:
        threadsBetween(wanted, gripPitches(candidate, setup)).total +
        difficultyOf(candidate, setup).total +
        otherStrings(grip, candidate),
      text: printGrip(candidate),
    }))
    .sort((one, other) => one.cost - other.cost || (one.text < other.text ? -1 : 1))
    .slice(0, replacementsMax)
    .map(({ candidate }) => candidate);
}

/** How many strings sound in one of the grips only. */
function otherStrings(one: Grip, other: Grip): number {
  return one.frets.filter((played, index) => {
    return (played === undefined) !== (other.frets[index] === undefined);
  }).length;
}

/** Small grips keep their number of strings; full ones may have one less or more. */
function wishesFor(grip: Grip, count: number, hasBass: boolean): Wishes {
  const innerMutes = innerMutesOf(grip.frets) > 0;
  return count <= smallGrip
    ? { ...everydayWishes(hasBass), sounding: { min: count, max: count }, innerMutes }
    : { ...fullWishes(hasBass), sounding: { min: count - 1, max: 6 }, innerMutes };
}
