/** Reading and changing one string of a grip. */
import type { Grip, StringNumber } from "@halflap/theory/grip";
import { stringNumbers } from "@halflap/theory/tuning";
import type { Fret } from "@halflap/theory/units";

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
  const frets = stringNumbers.map((each) => (each === string ? typed : grip?.frets[6 - each]));
  return frets.some((each) => each !== undefined) ? { frets } : undefined;
}
