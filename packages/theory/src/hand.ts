/** The fretting hand: how far it stretches, how many fingers it needs, and what it can't hold. */
import { fingersFor, type Hand, type Places, usualHand, widestBarre } from "./fingers.ts";
import type { Grip } from "./grip.ts";
import { neckFret, type Setup, type StringNumber, stringNumbers } from "./tuning.ts";
import { type Fret, type Millimetres, millimetres } from "./units.ts";

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

/** What a hand can't do about a grip; spans in millimetres. */
export type HandFault =
  | { readonly kind: "off-neck"; readonly string: StringNumber; readonly fret: Fret }
  | { readonly kind: "fingers"; readonly fingers: number; readonly max: number }
  | { readonly kind: "stretch"; readonly span: number; readonly max: number };

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
export function fingersNeeded(grip: Grip, setup: Setup, hand: Hand = usualHand): number {
  return fingersFor(placesOf(grip, setup), setup.capo, hand);
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
export function difficultyOf(grip: Grip, setup: Setup, hand: Hand = usualHand): Difficulty {
  const places = placesOf(grip, setup);
  const span = spanOfPlaces(places, setup);
  const fingers = fingersFor(places, setup.capo, hand);
  const barre = widestBarre(places, setup.capo, hand);
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

/** Why the hand can't hold the grip, as a sentence; undefined when it can. */
export function whyUnplayable(
  grip: Grip,
  setup: Setup,
  hand: Hand = usualHand,
): string | undefined {
  const fault = handFaults(grip, setup, hand)[0];
  return fault === undefined ? undefined : handFaultSentence(fault);
}

/** All that the hand can't do about the grip; empty when it can hold it. SPEC.md T11. */
export function handFaults(grip: Grip, setup: Setup, hand: Hand): readonly HandFault[] {
  const places = placesOf(grip, setup);
  const offNeck = stringNumbers.flatMap((string, index): HandFault[] => {
    const played = grip.frets[index];
    const isOff = played !== undefined && places[index] === undefined;
    return isOff ? [{ kind: "off-neck", string, fret: played }] : [];
  });
  if (offNeck.length > 0) return offNeck;
  const fingers = fingersFor(places, setup.capo, hand);
  const span = spanOfPlaces(places, setup);
  const faults: HandFault[] = [];
  if (fingers > hand.fingers) faults.push({ kind: "fingers", fingers, max: hand.fingers });
  if (span > hand.spanMax) faults.push({ kind: "stretch", span, max: hand.spanMax });
  return faults;
}

/** The fault as a sentence for the player. */
export function handFaultSentence(fault: HandFault): string {
  switch (fault.kind) {
    case "off-neck":
      return `Fret ${fault.fret} on string ${fault.string} is behind the capo or off the neck.`;
    case "fingers":
      return `It needs ${fault.fingers} fingers, and a hand has ${fault.max}.`;
    case "stretch":
      return `It stretches ${Math.round(fault.span)} mm; a hand reaches about ${fault.max} mm.`;
  }
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
