/** What keeps a grip from being offered for a chord, found quickly and told in a sentence. */
import type { SoundingChord } from "./chord.ts";
import { pretty } from "./display.ts";
import {
  countClasses,
  type Demand,
  type Demands,
  requiredOn,
  tensionsMaxOn,
} from "./grip-demands.ts";
import { fingersFor, fingersMax, innerMutesOf, type Places, spanOfPlaces } from "./hand.ts";
import { className } from "./pitch.ts";
import { openPitch, type Setup, type StringNumber, stringNumbers } from "./tuning.ts";
import { type PitchClass, pitchClass } from "./units.ts";

export type Fault =
  | { readonly kind: "unwished-string"; readonly string: number }
  | { readonly kind: "count"; readonly sounding: number }
  | { readonly kind: "inner-mute" }
  | { readonly kind: "open-string" }
  | { readonly kind: "open-reach" }
  | { readonly kind: "fret-range"; readonly place: number }
  | { readonly kind: "foreign"; readonly pitchClass: PitchClass }
  | { readonly kind: "missing"; readonly demand: Demand }
  | { readonly kind: "bass" }
  | { readonly kind: "tensions"; readonly max: number }
  | { readonly kind: "doubling" }
  | { readonly kind: "span"; readonly span: number }
  | { readonly kind: "fingers"; readonly fingers: number };

/**
 * Chord, guitar and wishes, made ready for many grips. Frets are places on the neck, from the
 * nut.
 */
export type Sieve = {
  readonly chord: SoundingChord;
  readonly setup: Setup;
  readonly demands: Demands;
  readonly strings: readonly StringNumber[];
  /** Between these fingers may stop strings. */
  readonly lowest: number;
  readonly highest: number;
  readonly spanMax: number;
  readonly sounding: { readonly min: number; readonly max: number };
  readonly openStrings: boolean;
  /** The highest place that may be stopped beside an open string. */
  readonly openHighest: number;
  readonly innerMutes: boolean;
  readonly doublings: "any" | "needed";
};

/** The first thing wrong with a grip lying at these places, undefined when it may be offered. */
export function faultOf(places: Places, sieve: Sieve): Fault | undefined {
  return placeFault(places, sieve) ?? toneFault(places, sieve) ?? handFault(places, sieve);
}

/** The fault as a sentence for the player. */
export function faultSentence(fault: Fault, sieve: Sieve): string {
  const { chord } = sieve;
  const name = pretty(chord.symbol);
  switch (fault.kind) {
    case "unwished-string":
      return `String ${fault.string} is not among the strings you asked for.`;
    case "count":
      return `It sounds ${fault.sounding} strings; you asked for ${rangeOf(sieve.sounding)}.`;
    case "inner-mute":
      return "It silences a string between two that sound.";
    case "open-string":
      return "It uses an open string.";
    case "open-reach":
      return "It mixes an open string with frets far up the neck.";
    case "fret-range":
      return `It reaches a fret outside those you asked for.`;
    case "foreign":
      return `${noteOf(fault.pitchClass)} is not in ${name}, nor a colour of it.`;
    case "missing":
      return `It lacks ${tonesOf(fault.demand)} of ${name}.`;
    case "bass":
      return `Its lowest note is not ${pretty(chord.bass)}, and nobody else plays the bass.`;
    case "tensions":
      return `It has more than ${counted(fault.max)} that ${name} does not name.`;
    case "doubling":
      return "It sounds a tone twice where another could sound.";
    case "span":
      return `It stretches ${Math.round(fault.span)} mm, further than you asked for.`;
    case "fingers":
      return `It needs ${fault.fingers} fingers, and a hand has ${fingersMax}.`;
  }
}

function placeFault(places: Places, sieve: Sieve): Fault | undefined {
  const { setup } = sieve;
  let sounding = 0;
  let hasOpen = false;
  let highest = 0;
  for (const [index, string] of stringNumbers.entries()) {
    const place = places[index];
    if (place === undefined) continue;
    sounding++;
    highest = Math.max(highest, place);
    if (!sieve.strings.includes(string)) return { kind: "unwished-string", string };
    if (place <= setup.capo) {
      if (!sieve.openStrings) return { kind: "open-string" };
      hasOpen = true;
    } else if (place < sieve.lowest || place > sieve.highest) return { kind: "fret-range", place };
  }
  if (hasOpen && highest > sieve.openHighest) return { kind: "open-reach" };
  if (sounding < sieve.sounding.min || sounding > sieve.sounding.max) {
    return { kind: "count", sounding };
  }
  return !sieve.innerMutes && innerMutesOf(places) > 0 ? { kind: "inner-mute" } : undefined;
}

function toneFault(places: Places, sieve: Sieve): Fault | undefined {
  const { demands, setup } = sieve;
  let heard = 0;
  let sounding = 0;
  let lowestPitch = Number.POSITIVE_INFINITY;
  for (const [index, string] of stringNumbers.entries()) {
    const place = places[index];
    if (place === undefined) continue;
    const pitch = openPitch(setup.tuning, string) + place;
    sounding++;
    heard |= 1 << (pitch % 12);
    lowestPitch = Math.min(lowestPitch, pitch);
  }
  const foreign = heard & ~(demands.tones | demands.tensions);
  if (foreign !== 0) return { kind: "foreign", pitchClass: pitchClass(31 - Math.clz32(foreign)) };
  const demand = requiredOn(demands, sounding).find(({ anyOf }) => (heard & anyOf) === 0);
  if (demand !== undefined) return { kind: "missing", demand };
  const max = tensionsMaxOn(sounding);
  if (countClasses(heard & ~demands.tones) > max) return { kind: "tensions", max };
  const needed = Math.min(sounding, demands.toneCount);
  if (sieve.doublings === "needed" && countClasses(heard) < needed) return { kind: "doubling" };
  const isBassRight = demands.lowest === 0 || (demands.lowest & (1 << (lowestPitch % 12))) !== 0;
  return isBassRight || sounding < 3 ? undefined : { kind: "bass" };
}

function handFault(places: Places, sieve: Sieve): Fault | undefined {
  const span = spanOfPlaces(places, sieve.setup);
  if (span > sieve.spanMax) return { kind: "span", span };
  const fingers = fingersFor(places, sieve.setup.capo);
  return fingers > fingersMax ? { kind: "fingers", fingers } : undefined;
}

/** "the ♭7 (E♭)", or both where either would do. */
function tonesOf(demand: Demand): string {
  return demand.tones
    .map((tone) => `the ${pretty(tone.degree)} (${pretty(tone.name)})`)
    .join(" or ");
}

function rangeOf(sounding: Sieve["sounding"]): string {
  return sounding.min === sounding.max ? `${sounding.min}` : `${sounding.min} to ${sounding.max}`;
}

function counted(colours: number): string {
  return colours === 1 ? "one colour" : `${colours} colours`;
}

function noteOf(heard: PitchClass): string {
  return pretty(className(heard, "flats"));
}
