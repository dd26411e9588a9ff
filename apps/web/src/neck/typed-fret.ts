/** From a place on the drawn neck back to the fret as its lane counts it. */
import type { Grip, StringNumber } from "@halflap/theory/grip";
import { highestFret, lowestFret, neckFret, type Setup } from "@halflap/theory/tuning";
import { type Fret, fret } from "@halflap/theory/units";

/** The fret a lane would type for a fret counted from the nut; undefined behind the capo or past the neck. */
export function typedFret(setup: Setup, fromNut: number): Fret | undefined {
  for (let typed: number = lowestFret(setup); typed <= highestFret(setup); typed += 1) {
    if (neckFret(setup, fret(typed)) === fromNut) return fret(typed);
  }
  return undefined;
}

/** The fret of one string in a grip, as typed; undefined when it is silent. */
export function fretOn(grip: Grip | undefined, string: StringNumber): Fret | undefined {
  return grip?.frets[6 - string];
}

/** The grip with one string changed; undefined when then no string would sound. */
export function withString(
  grip: Grip | undefined,
  string: StringNumber,
  typed: Fret | undefined,
): Grip | undefined {
  const frets = [6, 5, 4, 3, 2, 1].map((each) => (each === string ? typed : grip?.frets[6 - each]));
  return frets.some((each) => each !== undefined) ? { frets } : undefined;
}
