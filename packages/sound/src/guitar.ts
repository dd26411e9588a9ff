/** A guitar: six strings that do not hear each other, and one body. */
import type { StringNumber } from "@halflap/theory/tuning";
import { assert } from "@halflap/theory/units";
import { makeBody } from "./body.ts";
import type { GuitarVoice } from "./guitar-voices.ts";
import type { Decay } from "./loss-filter.ts";
import type { GuitarNote } from "./play-event.ts";
import { PluckedString, type Strike } from "./plucked-string.ts";
import { frequencyOf } from "./seconds.ts";

export type Guitar = {
  readonly start: (note: GuitarNote) => void;
  /** Ends a note, unless its string already sounds another. */
  readonly end: (note: GuitarNote) => void;
  /** Writes the next `count` samples. */
  readonly render: (mono: Float64Array, count: number) => void;
  readonly slowly: () => void;
  readonly silence: () => void;
};

/** Seconds in which a string that the hand lets go of falls by 60 dB. */
const letGo = 0.11;
/** Under the edge of the hand: a thud with a pitch. Ghosts have next to none. */
const palmMuted: Decay = { fundamental: 0.42, treble: 0.09 };
const ghosted: Decay = { fundamental: 0.07, treble: 0.035 };
/** A higher fret leaves less string, which rings shorter: by the root of its length. */
const fretLoss = 0.5;

/** Share of the old wave that a pick lets through, and that a finger on the string does. */
const carriedByPick = 0.08;
const carriedByFinger = 0.92;

/** How hard a string is set in motion without a pick. */
const fingerForce = { "hammer-on": 0.45, "pull-off": 0.55, slide: 0.12, bend: 0.12 } as const;
/** Seconds on the way from pitch to pitch; never more than half the note. */
const glideSeconds = { "hammer-on": 0.004, "pull-off": 0.004, slide: 0.09, bend: 0.16 } as const;

/** How much brighter a string gets with force: an accent is heard as an edge more than as size. */
const edgeAtRest = 0.35;
const edgeByForce = 1;
/** Force grows faster than velocity, so that soft and loud lie as far apart as they are marked. */
const forceCurve = 1.4;
/** Near the middle of the string no pick can get closer to the neck. */
const pickMax = 0.5;

/** The open strings E2 A2 D3 G3 B3 E4 in Hz, from which frets shorten. */
const usualOpen = [40, 45, 50, 55, 59, 64].map(frequencyOf);

/** A guitar at rest; its noises follow from the seed. */
export function makeGuitar(voice: GuitarVoice, sampleRate: number, seed: number): Guitar {
  const strings = usualOpen.map((_, index) => new PluckedString(sampleRate, seed + index));
  const body = makeBody(voice.body, sampleRate);
  const sounding: (GuitarNote | undefined)[] = strings.map(() => undefined);
  return {
    start: (note) => {
      const index = indexOf(note.string);
      startNote(stringAt(strings, index), voice, note);
      sounding[index] = note;
    },
    end: (note) => {
      const index = indexOf(note.string);
      if (sounding[index] !== note) return;
      stringAt(strings, index).stop(letGo);
      sounding[index] = undefined;
    },
    render: (mono, count) => {
      mono.fill(0, 0, count);
      for (const string of strings) string.addTo(mono, count);
      body.pass(mono, count);
    },
    slowly: () => {
      for (const string of strings) string.slowly();
      body.slowly();
    },
    silence: () => {
      for (const string of strings) string.silence();
      body.silence();
      sounding.fill(undefined);
    },
  };
}

function startNote(string: PluckedString, voice: GuitarVoice, note: GuitarNote): void {
  const { technique, pitch, bend } = note;
  const picked = pickedStrike(voice, note);
  if (technique === "pluck" || technique === "palm-mute" || technique === "ghost") {
    string.strike(picked);
    return;
  }
  const before = note.follows ? string.frequency : undefined;
  const seconds = Math.min(glideSeconds[technique], (note.end - note.start) / 2);
  const force = before === undefined ? picked.force : picked.force * fingerForce[technique];
  const carry = before === undefined ? carriedByPick : carriedByFinger;
  const starts = technique === "bend" || before === undefined ? picked.frequency : before;
  string.strike({ ...picked, frequency: starts, force, carry });
  if (technique === "bend") string.glide(frequencyOf(pitch + bend), seconds);
  else if (before !== undefined) string.glide(picked.frequency, seconds);
}

function pickedStrike(voice: GuitarVoice, note: GuitarNote): Strike {
  const { technique, velocity } = note;
  const index = indexOf(note.string);
  const frequency = frequencyOf(note.pitch);
  const shorter = Math.min(1, (usualOpen[index] ?? frequency) / frequency);
  const ringing: Decay = {
    fundamental: (voice.sustain[index] ?? 1) * shorter ** fretLoss,
    treble: (voice.shine[index] ?? 1) * shorter ** fretLoss,
  };
  const muted = { "palm-mute": palmMuted, ghost: ghosted } as const;
  const isMuted = technique === "palm-mute" || technique === "ghost";
  return {
    frequency,
    force: velocity ** forceCurve * voice.level,
    // The pick stays where it is while the sounding string gets shorter.
    pick: Math.min(pickMax, voice.pick / shorter),
    edge: voice.edge * (edgeAtRest + edgeByForce * velocity) * (isMuted ? 0.5 : 1),
    scrape: voice.scrape * (technique === "ghost" ? 5 : 1),
    decay: isMuted ? muted[technique] : ringing,
    carry: carriedByPick,
  };
}

function indexOf(string: StringNumber): number {
  return usualOpen.length - string;
}

function stringAt(strings: readonly PluckedString[], index: number): PluckedString {
  const string = strings[index];
  assert(string !== undefined, "no such string", index);
  return string;
}
