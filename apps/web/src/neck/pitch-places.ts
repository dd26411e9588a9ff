/** Every place of a neck at which given pitches can be found. */
import type { StringNumber } from "@halflap/theory/grip";
import { highestFret, lowestFret, neckFret, pitchAt, type Setup } from "@halflap/theory/tuning";
import { fret, type MidiNote } from "@halflap/theory/units";

export type PitchPlace = {
  readonly string: StringNumber;
  readonly fromNut: number;
  readonly pitch: MidiNote;
};

/** String by string from string 1, the frets counted from the nut. */
export function placesOfPitches(pitches: readonly MidiNote[], setup: Setup): readonly PitchPlace[] {
  const places: PitchPlace[] = [];
  for (const string of strings) {
    for (let typed: number = lowestFret(setup); typed <= highestFret(setup); typed += 1) {
      const pitch = pitchAt(setup, string, fret(typed));
      const fromNut = neckFret(setup, fret(typed));
      if (pitch === undefined || fromNut === undefined) continue;
      if (pitches.includes(pitch)) places.push({ string, fromNut, pitch });
    }
  }
  return places;
}

const strings: readonly StringNumber[] = [1, 2, 3, 4, 5, 6];
