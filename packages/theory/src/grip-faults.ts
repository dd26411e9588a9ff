/** What keeps a grip from being offered for a chord, fault by fault, and as a sentence. */
import type { ChordTone, SoundingChord } from "./chord.ts";
import { pretty } from "./display.ts";
import type { Hand, Places } from "./fingers.ts";
import type { Grip } from "./grip.ts";
import {
  type ClassSet,
  classSet,
  countClasses,
  type Demand,
  type Demands,
  lowestOn,
  requiredOn,
  tensionsMaxOn,
} from "./grip-demands.ts";
import {
  type HandFault,
  handFaultSentence,
  handFaults,
  innerMutesOf,
  placesOf,
  spanOfPlaces,
} from "./hand.ts";
import { className } from "./pitch.ts";
import { openPitch, type Setup, type StringNumber, stringNumbers } from "./tuning.ts";
import { type PitchClass, pitchClass } from "./units.ts";

/** Of a hand, of the wishes, or of the tones. */
export type Fault =
  | HandFault
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
  | { readonly kind: "span"; readonly span: number };

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
  readonly hand: Hand;
  /** The narrower of what the hand can do and what is wished. */
  readonly spanMax: number;
  readonly sounding: { readonly min: number; readonly max: number };
  readonly openStrings: boolean;
  /** The highest place that may be stopped beside an open string. */
  readonly openHighest: number;
  readonly innerMutes: boolean;
  readonly doublings: "any" | "needed";
};

/**
 * All that is wrong with a grip: what the hand can't do first, then what was not wished, then
 * what the tones lack. Empty when it may be offered.
 */
export function faultsOf(grip: Grip, sieve: Sieve): readonly Fault[] {
  const { setup, hand, spanMax } = sieve;
  const unplayable = handFaults(grip, setup, hand);
  if (unplayable.some((fault) => fault.kind === "off-neck")) return unplayable;
  const places = placesOf(grip, setup);
  const span = spanOfPlaces(places, setup);
  const isWide = span > spanMax && span <= hand.spanMax;
  return [
    ...unplayable,
    ...placeFaults(places, sieve),
    ...toneFaults(places, sieve),
    ...(isWide ? [{ kind: "span", span } as const] : []),
  ];
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
      return `It lacks ${fault.demand.tones.map(toneWords).join(" or ")} of ${name}.`;
    case "bass":
      return `Its lowest note is not ${pretty(chord.bass)}, and nobody else plays the bass.`;
    case "tensions":
      return `It has more than ${counted(fault.max)} that ${name} does not name.`;
    case "doubling":
      return "It sounds a tone twice where another could sound.";
    case "span":
      return `It stretches ${Math.round(fault.span)} mm, further than you asked for.`;
    default:
      return handFaultSentence(fault);
  }
}

function placeFaults(places: Places, sieve: Sieve): readonly Fault[] {
  const { setup } = sieve;
  const faults: Fault[] = [];
  const sounding = places.filter((place) => place !== undefined);
  const hasOpen = sounding.some((place) => place <= setup.capo);
  for (const [index, string] of stringNumbers.entries()) {
    const place = places[index];
    if (place === undefined) continue;
    if (!sieve.strings.includes(string)) faults.push({ kind: "unwished-string", string });
    const isOutside = place < sieve.lowest || place > sieve.highest;
    if (place > setup.capo && isOutside) faults.push({ kind: "fret-range", place });
  }
  if (hasOpen && !sieve.openStrings) faults.push({ kind: "open-string" });
  if (hasOpen && Math.max(...sounding) > sieve.openHighest) faults.push({ kind: "open-reach" });
  if (sounding.length < sieve.sounding.min || sounding.length > sieve.sounding.max) {
    faults.push({ kind: "count", sounding: sounding.length });
  }
  if (!sieve.innerMutes && innerMutesOf(places) > 0) faults.push({ kind: "inner-mute" });
  return faults;
}

function toneFaults(places: Places, sieve: Sieve): readonly Fault[] {
  const { demands, setup, doublings } = sieve;
  const pitches = stringNumbers.flatMap((string, index) => {
    const place = places[index];
    return place === undefined ? [] : [openPitch(setup.tuning, string) + place];
  });
  const sounding = pitches.length;
  const heard = classSet(pitches.map(pitchClass));
  const foreign = heard & ~(demands.tones | demands.tensions);
  const max = tensionsMaxOn(sounding);
  const bass = lowestOn(demands, sounding);
  const faults: Fault[] = classesIn(foreign).map((each) => ({ kind: "foreign", pitchClass: each }));
  for (const demand of requiredOn(demands, sounding)) {
    if ((heard & demand.anyOf) === 0) faults.push({ kind: "missing", demand });
  }
  if (countClasses(heard & ~foreign & ~demands.tones) > max) faults.push({ kind: "tensions", max });
  const needed = doublings === "needed" ? Math.min(sounding, demands.toneCount) : 0;
  if (countClasses(heard) < needed) faults.push({ kind: "doubling" });
  const isBassRight = bass === 0 || (bass & (1 << (Math.min(...pitches) % 12))) !== 0;
  return isBassRight ? faults : [...faults, { kind: "bass" }];
}

function classesIn(set: ClassSet): readonly PitchClass[] {
  return Array.from({ length: 12 }, (_, value) => pitchClass(value)).filter(
    (value) => (set & (1 << value)) !== 0,
  );
}

/** "the ♭7 (E♭)": a tone of the chord as it is spoken of in sentences. */
export function toneWords(tone: ChordTone): string {
  return `the ${pretty(tone.degree)} (${pretty(tone.name)})`;
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
