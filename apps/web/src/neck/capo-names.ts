/** Both names of a chord over a capo: what sounds, and the shape that the hand holds. */
import type { SoundingChord } from "@halflap/theory/chord";
import { className, classOf } from "@halflap/theory/pitch";
import type { Fret } from "@halflap/theory/units";
import { pitchClass } from "@halflap/theory/units";

/**
 * The symbol of the shape held for a sounding chord, "D7" for F7 over capo 3; undefined without a
 * capo.
 */
export function heldName(chord: SoundingChord, capo: Fret): string | undefined {
  if (capo === 0) return undefined;
  const lowered = (name: SoundingChord["root"]) =>
    className(pitchClass(classOf(name) - capo), name.includes("#") ? "sharps" : "flats");
  const [quality, slash] = chord.symbol.slice(chord.root.length).split(/\/(?=[A-G][b#]*$)/);
  const bass = slash === undefined ? "" : `/${lowered(chord.bass)}`;
  return `${lowered(chord.root)}${quality ?? ""}${bass}`;
}
