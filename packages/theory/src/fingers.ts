/** Fingers, and the thumb if it may: the fewest that hold places on the neck. */
import { type Millimetres, millimetres } from "./units.ts";

/** What a guitarist's fretting hand can do. */
export type Hand = {
  /** The widest stretch between two stopped frets. */
  readonly spanMax: Millimetres;
  /** Fingers that stop strings, 1 to 4; the thumb is not among them. */
  readonly fingers: number;
  /** Whether one finger may stop several strings. */
  readonly barres: boolean;
  /** Whether a barre may run over a string that another finger keeps silent. */
  readonly barreMutes: boolean;
  /** How many strings, from the lowest, the thumb may stop from above the neck. */
  readonly thumbStrings: 0 | 1 | 2;
};

/** Fingers of a hand that stop strings while the thumb stays behind the neck. */
export const fingersMax = 4;

/**
 * The widest stretch between two stopped frets: frets 1 to 5 on a 648 mm scale are 126.2 mm apart.
 * Our own limit, to be tried by hand.
 */
export const handSpanMax: Millimetres = millimetres(127);

/** Four fingers and barres, the thumb behind the neck. */
export const usualHand: Hand = {
  spanMax: handSpanMax,
  fingers: fingersMax,
  barres: true,
  barreMutes: false,
  thumbStrings: 0,
};

/**
 * Neck frets by string, lowest first; undefined = silent. Open strings carry the fret of nut or
 * capo.
 */
export type Places = readonly (number | undefined)[];

/** Opposite the first fingers the thumb reaches one fret beyond the lowest of them: our own. */
const thumbLead = 1;

/** The fewest fingers for places on the neck, with the thumb's help where the hand allows it. */
export function fingersFor(places: Places, capo: number, hand: Hand = usualHand): number {
  let fewest = fingerStrings(places, capo, hand).length;
  for (let top = 0; top < hand.thumbStrings; top++) {
    const rest = thumbed(places, capo, top);
    if (rest !== undefined) fewest = Math.min(fewest, fingerStrings(rest, capo, hand).length);
  }
  return fewest;
}

/** The strings that the widest shared finger lies across; 0 = no finger is shared. */
export function widestBarre(places: Places, capo: number, hand: Hand = usualHand): number {
  const widths = fingerStrings(places, capo, hand).map(([first, last]) => last - first + 1);
  const widest = Math.max(0, ...widths);
  return widest > 1 ? widest : 0;
}

/**
 * For each finger the first and last string it stops. Two strings share one when every string
 * between them sounds at that fret or above: a lower or open one would lie under the finger, and
 * so would a silent one unless another finger damps it.
 */
function fingerStrings(
  places: Places,
  capo: number,
  hand: Hand,
): readonly (readonly [number, number])[] {
  const fingers: [number, number][] = [];
  for (let string = 0; string < places.length; string++) {
    const place = places[string];
    if (place === undefined || place <= capo) continue;
    const shared = fingers.find(
      ([first, last]) => places[first] === place && isBarred(places, last, string, hand),
    );
    if (shared === undefined) fingers.push([string, string]);
    else shared[1] = string;
  }
  return fingers;
}

function isBarred(places: Places, from: number, to: number, hand: Hand): boolean {
  const barre = places[from] ?? 0;
  for (let string = from + 1; string < to; string++) {
    const between = places[string] ?? (hand.barreMutes ? barre : 0);
    if (between < barre) return false;
  }
  return hand.barres;
}

/**
 * What is left for the fingers when the thumb lies over the strings up to `top`: those it
 * touches sound at its fret or not at all. undefined when it can't lie there.
 */
function thumbed(places: Places, capo: number, top: number): Places | undefined {
  const thumb = places[top];
  if (thumb === undefined || thumb <= capo) return undefined;
  const rest: (number | undefined)[] = [...places];
  for (let string = 0; string <= top; string++) {
    if (places[string] !== undefined && places[string] !== thumb) return undefined;
    rest[string] = undefined;
  }
  const reach = lowestStopped(rest, capo) + thumbLead;
  return thumb <= reach ? rest : undefined;
}

function lowestStopped(places: Places, capo: number): number {
  return Math.min(
    ...places.map((place) => (place === undefined || place <= capo ? Infinity : place)),
  );
}
