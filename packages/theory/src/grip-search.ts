/**
 * Walks the strings from low to high and keeps what comes through the sieve. Each grip found is
 * one number whose order is the order of the answer.
 */
import { fingersFor } from "./fingers.ts";
import { type Grip, gripOf } from "./grip.ts";
import {
  type ClassSet,
  countClasses,
  lowestOn,
  requiredOn,
  tensionsMaxOn,
} from "./grip-demands.ts";
import type { Sieve } from "./grip-faults.ts";
import { fretPosition } from "./hand.ts";
import { openPitch, type StringNumber, stringCount, stringNumbers, typedFret } from "./tuning.ts";
import { fret } from "./units.ts";

/** Five bits a string: every fret there is, and one value beyond for silence. */
const placeBase = 32;
const silent = placeBase - 1;
/** Where count and position stand in a key, above the six places. */
const countUnit = placeBase ** stringCount;
const positionUnit = countUnit * 8;

/**
 * Where the walk stands before each string, and after the last: typed arrays, since a step must
 * cost nothing but arithmetic.
 */
type Walk = {
  readonly sounding: Int32Array;
  readonly stopped: Int32Array;
  readonly heard: Int32Array;
  /** The lowest and highest stopped place; `untouched` while nothing is stopped. */
  readonly lowest: Int32Array;
  readonly highest: Int32Array;
  readonly hasOpen: Int32Array;
  readonly lowestPitch: Int32Array;
  /** The places of the strings below, in base 32. */
  readonly key: Int32Array;
};

/** A place on a string that sounds a tone the chord allows. */
type Choice = {
  readonly place: number;
  readonly isOpen: boolean;
  readonly pitch: number;
  readonly tone: ClassSet;
};

/** Above any place and any pitch. */
const untouched = 1000;

/**
 * Every grip that the sieve lets through: low positions first, then fewer strings, then fret by
 * fret.
 */
export function gripsThrough(sieve: Sieve): readonly Grip[] {
  const walk = startOf(stringCount + 1);
  const choices = stringNumbers.map((string) => choicesOn(string, sieve));
  const canGoOn = prospects(sieve, walk);
  const isSound = soundness(sieve, walk);
  const isLegal = stepping(sieve, walk);
  const keys: number[] = [];

  const keep = (string: number): void => {
    const key = (at(walk.key, string) + 1) * placeBase ** (stringCount - string) - 1;
    if (!isSound(string, key)) return;
    const position = Math.min(sieve.setup.lastFret, at(walk.lowest, string));
    keys.push(position * positionUnit + at(walk.sounding, string) * countUnit + key);
  };

  const step = (string: number): void => {
    if (!canGoOn(string)) return;
    const hasEnded = !sieve.innerMutes && at(walk.sounding, string) > 0;
    if (string === stringCount || hasEnded) keep(string);
    if (string === stringCount) return;
    if (!hasEnded) {
      silence(walk, string);
      step(string + 1);
    }
    if (at(walk.sounding, string) === sieve.sounding.max) return;
    for (const choice of choices[string] ?? []) {
      sound(walk, string, choice);
      if (isLegal(string + 1)) step(string + 1);
    }
  };

  step(0);
  return Array.from(Float64Array.from(keys).sort(), gripsFrom(sieve));
}

function startOf(length: number): Walk {
  return {
    sounding: new Int32Array(length),
    stopped: new Int32Array(length),
    heard: new Int32Array(length),
    lowest: new Int32Array(length).fill(untouched),
    highest: new Int32Array(length),
    hasOpen: new Int32Array(length),
    lowestPitch: new Int32Array(length).fill(untouched),
    key: new Int32Array(length),
  };
}

/** An element that is there: the walk never leaves its arrays. */
function at(numbers: Int32Array, index: number): number {
  return numbers[index] ?? 0;
}

function silence(walk: Walk, string: number): void {
  const next = string + 1;
  walk.sounding[next] = at(walk.sounding, string);
  walk.stopped[next] = at(walk.stopped, string);
  walk.heard[next] = at(walk.heard, string);
  walk.lowest[next] = at(walk.lowest, string);
  walk.highest[next] = at(walk.highest, string);
  walk.hasOpen[next] = at(walk.hasOpen, string);
  walk.lowestPitch[next] = at(walk.lowestPitch, string);
  walk.key[next] = at(walk.key, string) * placeBase + silent;
}

function sound(walk: Walk, string: number, { place, pitch, tone, isOpen }: Choice): void {
  const next = string + 1;
  const lowest = at(walk.lowest, string);
  const highest = at(walk.highest, string);
  walk.sounding[next] = at(walk.sounding, string) + 1;
  walk.stopped[next] = at(walk.stopped, string) + (isOpen ? 0 : 1);
  walk.heard[next] = at(walk.heard, string) | tone;
  walk.lowest[next] = isOpen ? lowest : Math.min(lowest, place);
  walk.highest[next] = isOpen ? highest : Math.max(highest, place);
  walk.hasOpen[next] = isOpen ? 1 : at(walk.hasOpen, string);
  walk.lowestPitch[next] = Math.min(at(walk.lowestPitch, string), pitch);
  walk.key[next] = at(walk.key, string) * placeBase + place;
}

/** Whether the hand reaches all that is stopped, and that may lie beside an open string. */
function stepping(sieve: Sieve, walk: Walk): (string: number) => boolean {
  const reaches = reachesOf(sieve);
  return (string) => {
    const highest = at(walk.highest, string);
    if (at(walk.hasOpen, string) === 1 && highest > sieve.openHighest) return false;
    return highest <= (reaches[at(walk.lowest, string)] ?? untouched);
  };
}

/** What a grip must sound on so many strings, as bits. */
type Standard = {
  readonly required: readonly ClassSet[];
  /** What the lowest string has to sound; 0 = anything. */
  readonly bass: ClassSet;
  readonly tensionsMax: number;
  readonly classesMin: number;
};

function standardsOf(sieve: Sieve): readonly Standard[] {
  const { demands, doublings } = sieve;
  return Array.from({ length: stringCount + 1 }, (_, sounding) => ({
    required: requiredOn(demands, sounding).map((demand) => demand.anyOf),
    bass: lowestOn(demands, sounding),
    tensionsMax: tensionsMaxOn(sounding),
    classesMin: doublings === "needed" ? Math.min(sounding, demands.toneCount) : 0,
  }));
}

/**
 * Whether the strings left may still make a grip of what stands so far. Only what would hold
 * whichever way the walk goes on turns it back, or the answer would not be complete.
 */
function prospects(sieve: Sieve, walk: Walk): (string: number) => boolean {
  const { demands, sounding } = sieve;
  const standards = standardsOf(sieve);
  return (string) => {
    const left = stringCount - string;
    const count = at(walk.sounding, string);
    const heard = at(walk.heard, string);
    const most = Math.min(sounding.max, count + left);
    if (most < sounding.min) return false;
    const best = standards[most];
    const least = standards[Math.max(sounding.min, count)];
    if (best === undefined || least === undefined) return false;
    if (countClasses(heard & ~demands.tones) > best.tensionsMax) return false;
    const doubled = count - countClasses(heard);
    if (doubled > 0 && most - doubled < best.classesMin) return false;
    let missing = 0;
    for (const anyOf of least.required) if ((heard & anyOf) === 0) missing++;
    return missing <= most - count;
  };
}

/** Whether a whole grip meets the demands and can be held; everything else the walk has seen to. */
function soundness(sieve: Sieve, walk: Walk): (string: number, key: number) => boolean {
  const { demands, hand, setup } = sieve;
  const standards = standardsOf(sieve);
  const fewest = Math.max(1, sieve.sounding.min);
  return (string, key) => {
    const count = at(walk.sounding, string);
    const heard = at(walk.heard, string);
    const standard = standards[count];
    if (standard === undefined || count < fewest) return false;
    for (const anyOf of standard.required) if ((heard & anyOf) === 0) return false;
    if (countClasses(heard & ~demands.tones) > standard.tensionsMax) return false;
    if (countClasses(heard) < standard.classesMin) return false;
    const lowest = 1 << (at(walk.lowestPitch, string) % 12);
    if (standard.bass !== 0 && (standard.bass & lowest) === 0) return false;
    if (at(walk.stopped, string) <= hand.fingers) return true;
    return fingersFor(placesOfKey(key), setup.capo, hand) <= hand.fingers;
  };
}

/**
 * The places of a string that sound a tone the chord allows, open string first, then up the neck.
 */
function choicesOn(string: StringNumber, sieve: Sieve): readonly Choice[] {
  if (!sieve.strings.includes(string)) return [];
  const allowed = sieve.demands.tones | sieve.demands.tensions;
  const open = openPitch(sieve.setup.tuning, string);
  const places = sieve.openStrings ? [sieve.setup.capo as number] : [];
  for (let place = sieve.lowest; place <= sieve.highest; place++) places.push(place);
  return places
    .map((place) => ({
      place,
      isOpen: place <= sieve.setup.capo,
      pitch: open + place,
      tone: 1 << ((open + place) % 12),
    }))
    .filter(({ tone }) => (allowed & tone) !== 0);
}

/** For each place the highest one that a hand with its first finger there may stop. */
function reachesOf(sieve: Sieve): readonly number[] {
  const positions = Array.from({ length: sieve.setup.lastFret + 1 }, (_, place) =>
    fretPosition(sieve.setup, place),
  );
  return positions.map((from, first) => {
    let last = first;
    while ((positions[last + 1] ?? Number.POSITIVE_INFINITY) - from <= sieve.spanMax) last++;
    return last;
  });
}

function placesOfKey(key: number): (number | undefined)[] {
  return digitsOf(key).map((place) => (place === silent ? undefined : place));
}

function digitsOf(key: number): readonly number[] {
  const digits: number[] = [];
  for (let shift = 25; shift >= 0; shift -= 5) digits.push((key >> shift) & (placeBase - 1));
  return digits;
}

/** The grips of keys, with frets as the lane counts them. */
function gripsFrom({ setup }: Sieve): (key: number) => Grip {
  const typed = Array.from({ length: placeBase }, (_, place) =>
    place >= setup.capo && place <= setup.lastFret ? typedFret(setup, fret(place)) : undefined,
  );
  return (key) => gripOf(digitsOf(key % countUnit).map((place) => typed[place]));
}
