/** The fretting hand: how far it stretches, how many fingers it needs, and what it can't hold. */
import type { Grip } from "./grip.ts";
import { neckFret, type Setup, stringNumbers } from "./tuning.ts";
import { type Fret, type Millimetres, millimetres } from "./units.ts";

/** Fingers that stop strings; the thumb stays behind the neck. */
export const fingersMax = 4;

/**
 * The widest stretch between two stopped frets: frets 1 to 5 on a 648 mm scale are 126.2 mm apart.
 * Our own limit, to be tried by hand.
 */
export const handSpanMax: Millimetres = millimetres(127);

/** What makes a grip hard, part by part; `total` counts in fingers' worth of effort. */
export type Difficulty = {
  readonly span: Millimetres;
  readonly fingers: number;
  /** Strings that the widest shared finger lies across; 0 = no finger is shared. */
  readonly barre: number;
  /** Silent strings between sounding ones. */
  readonly innerMutes: number;
  /** The neck fret under the first finger, undefined when nothing is stopped. */
  readonly position: Fret | undefined;
  readonly total: number;
};

/** Our own weights, in fingers: each is what one unit of its part adds to the total. */
const effort = {
  spanMillimetre: 1 / 40,
  finger: 1,
  barreString: 1 / 2,
  innerMute: 1,
  fretAboveBody: 1 / 4,
};

/** Most guitar necks meet the body at the 12th or 14th fret; beyond it the hand loses its thumb. */
const bodyFret = 12;

/**
 * Neck frets by string, lowest first; undefined = silent. Open strings carry the fret of nut or
 * capo.
 */
export type Places = readonly (number | undefined)[];

/**
 * How far fret n lies from the nut: L · (1 − 2^(−n/12)), equal temperament on a scale of length
 * L.
 */
export function fretPosition(setup: Setup, position: number): Millimetres {
  return millimetres(setup.scaleLength * (1 - 2 ** (-position / 12)));
}

/**
 * Where the grip lies on the neck. A fret that the capo or the neck's end rules out counts as
 * silent.
 */
export function placesOf(grip: Grip, setup: Setup): Places {
  return grip.frets.map((played) => (played === undefined ? undefined : neckFret(setup, played)));
}

/** The distance between the lowest and the highest stopped fret; 0 with none or one. */
export function spanOf(grip: Grip, setup: Setup): Millimetres {
  return spanOfPlaces(placesOf(grip, setup), setup);
}

/** The fewest fingers that hold the grip: SPEC.md T11. */
export function fingersNeeded(grip: Grip, setup: Setup): number {
  return fingersFor(placesOf(grip, setup), setup.capo);
}

/**
 * The neck fret under the first finger: the lowest stopped one; undefined when nothing is
 * stopped.
 */
export function handFret(grip: Grip, setup: Setup): Fret | undefined {
  let lowest: Fret | undefined;
  for (const played of grip.frets) {
    const place = played === undefined ? undefined : neckFret(setup, played);
    if (place === undefined || place <= setup.capo) continue;
    if (lowest === undefined || place < lowest) lowest = place;
  }
  return lowest;
}

/** The grip's difficulty in named parts; only the order of totals means anything. */
export function difficultyOf(grip: Grip, setup: Setup): Difficulty {
  const places = placesOf(grip, setup);
  const span = spanOfPlaces(places, setup);
  const fingers = fingersFor(places, setup.capo);
  const barre = widestBarre(places, setup.capo);
  const innerMutes = innerMutesOf(places);
  const position = handFret(grip, setup);
  const total =
    span * effort.spanMillimetre +
    fingers * effort.finger +
    barre * effort.barreString +
    innerMutes * effort.innerMute +
    Math.max(0, (position ?? 0) - bodyFret) * effort.fretAboveBody;
  return { span, fingers, barre, innerMutes, position, total };
}

/** Why no hand can hold the grip, as a sentence; undefined when one can. */
export function whyUnplayable(grip: Grip, setup: Setup): string | undefined {
  const places = placesOf(grip, setup);
  const unreachable = stringNumbers.find(
    (_, index) => grip.frets[index] !== undefined && places[index] === undefined,
  );
  if (unreachable !== undefined) {
    const typed = grip.frets[stringNumbers.indexOf(unreachable)];
    return `Fret ${typed} on string ${unreachable} lies behind the capo or beyond the neck.`;
  }
  const fingers = fingersFor(places, setup.capo);
  if (fingers > fingersMax) return `It needs ${fingers} fingers, and a hand has ${fingersMax}.`;
  const span = spanOfPlaces(places, setup);
  if (span <= handSpanMax) return undefined;
  return `It stretches ${Math.round(span)} mm; a hand reaches about ${handSpanMax} mm.`;
}

/** The span of places on the neck. */
export function spanOfPlaces(places: Places, setup: Setup): Millimetres {
  let lowest = Number.POSITIVE_INFINITY;
  let highest = 0;
  for (const place of places) {
    if (place === undefined || place <= setup.capo) continue;
    lowest = Math.min(lowest, place);
    highest = Math.max(highest, place);
  }
  return highest <= lowest
    ? millimetres(0)
    : millimetres(fretPosition(setup, highest) - fretPosition(setup, lowest));
}

/** The fewest fingers for places on the neck: strings in a row at one fret share one. */
export function fingersFor(places: Places, capo: number): number {
  return fingerStrings(places, capo).length;
}

/** Silent strings between the lowest and the highest sounding one. */
export function innerMutesOf(places: Places): number {
  let mutes = 0;
  let silent = 0;
  let hasBegun = false;
  for (const place of places) {
    if (place === undefined) silent++;
    else {
      if (hasBegun) mutes += silent;
      hasBegun = true;
      silent = 0;
    }
  }
  return mutes;
}

function widestBarre(places: Places, capo: number): number {
  const widths = fingerStrings(places, capo).map(([first, last]) => last - first + 1);
  const widest = Math.max(0, ...widths);
  return widest > 1 ? widest : 0;
}

/**
 * For each finger the first and last string it stops. Two strings share one when every string
 * between them sounds at that fret or above: a lower, open or silent one would lie under the
 * finger.
 */
function fingerStrings(places: Places, capo: number): readonly (readonly [number, number])[] {
  const fingers: [number, number][] = [];
  for (let string = 0; string < places.length; string++) {
    const place = places[string];
    if (place === undefined || place <= capo) continue;
    const shared = fingers.find(
      ([first, last]) => places[first] === place && isBarred(places, last, string, place),
    );
    if (shared === undefined) fingers.push([string, string]);
    else shared[1] = string;
  }
  return fingers;
}

function isBarred(places: Places, from: number, to: number, place: number): boolean {
  for (let string = from + 1; string < to; string++) {
    if ((places[string] ?? 0) < place) return false;
  }
  return true;
}
