/** A grip moved to another key: along the neck where it can, else the nearest grip. SPEC.md T47. */
import type { Chord, SoundingChord } from "./chord.ts";
import { type Grip, gripOf, gripPitches, printGrip } from "./grip.ts";
import { difficultyOf, placesOf, whyUnplayable } from "./hand.ts";
import { everydayWishes, fullWishes, gripsOf, type Wishes } from "./neck.ts";
import { threadsBetween } from "./threads.ts";
import { isOpen, type Setup, typedFret } from "./tuning.ts";
import { fret, type MidiNote, midiNote, midiNoteMax, type Semitones } from "./units.ts";

/** What became of a grip. */
export type MovedGrip =
  /** The same shape elsewhere; `octave` is how many octaves beside the interval it went. */
  | { readonly kind: "moved"; readonly grip: Grip; readonly octave: -1 | 0 | 1 }
  /** It can't be moved: the grips nearest to what it would sound, the nearest first. */
  | { readonly kind: "replaced"; readonly choices: readonly Grip[] }
  /** It can't be moved, and there is nothing in its place. */
  | { readonly kind: "lost" };

/** So many replacements are offered. */
export const replacementsMax = 5;

const octave = 12;
/** An open shape keeps its place by the nut; only stopped grips may go an octave beside. */
const octavesOf = { open: [0], stopped: [0, -1, 1] } as const;
const smallGrip = 4;

/**
 * The grip for the same chord an interval away, `chord` being the new one. Every string moves by
 * the interval, open strings too, so that an open shape can go up but not below the nut; if it
 * leaves the neck or the hand, an octave beside. Otherwise grips of the chord, those first to which
 * the voices have the least way from what the old one would sound; then the easiest.
 */
export function moveGrip(
  grip: Grip,
  setup: Setup,
  by: Semitones,
  chord: Chord | undefined,
  hasBass: boolean,
): MovedGrip {
  for (const beside of octavesOf[hasOpenStrings(grip, setup) ? "open" : "stopped"]) {
    const moved = alongTheNeck(grip, setup, by + beside * octave);
    if (moved !== undefined) return { kind: "moved", grip: moved, octave: beside };
  }
  const wanted = soundingAt(gripPitches(grip, setup), by);
  const choices = chord?.kind === "chord" ? nearestGrips(wanted, setup, chord, hasBass) : [];
  return choices.length === 0 ? { kind: "lost" } : { kind: "replaced", choices };
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
  wanted: readonly MidiNote[],
  setup: Setup,
  chord: SoundingChord,
  hasBass: boolean,
): readonly Grip[] {
  const close = wishesFor(wanted.length, hasBass);
  const candidates = gripsOf(chord, setup, close);
  const all = candidates.length > 0 ? candidates : gripsOf(chord, setup, everydayWishes(hasBass));
  return all
    .map((grip) => ({
      grip,
      motion: threadsBetween(wanted, gripPitches(grip, setup)).total,
      effort: difficultyOf(grip, setup).total,
      text: printGrip(grip),
    }))
    .sort(
      (one, other) =>
        one.motion - other.motion || one.effort - other.effort || (one.text < other.text ? -1 : 1),
    )
    .slice(0, replacementsMax)
    .map(({ grip }) => grip);
}

/** As many strings as before, or one less or more: small grips stay small, full ones full. */
function wishesFor(count: number, hasBass: boolean): Wishes {
  const base = count <= smallGrip ? everydayWishes(hasBass) : fullWishes(hasBass);
  const sounding = { min: Math.max(2, count - 1), max: Math.min(6, Math.max(2, count + 1)) };
  return { ...base, sounding };
}
