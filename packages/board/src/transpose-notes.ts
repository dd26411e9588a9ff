/** Single notes in another key: fills along their strings, and sung melodies. */
import { neckFret, type Setup, typedFret } from "@halflap/theory/tuning";
import { fret, midiNoteMax } from "@halflap/theory/units";
import type { FillCopy } from "./playing-shape.ts";
import type { PhraseCopy } from "./song-shape.ts";

/** The fill with every note so many semitones along its string; undefined where one can't go. */
export function movedFill(fill: FillCopy, setup: Setup, by: number): FillCopy | undefined {
  const notes = fill.notes.flatMap((note) => {
    const place = neckFret(setup, fret(note.fret));
    const there = place === undefined ? -1 : place + by;
    const isOnNeck = there >= setup.capo && there <= setup.lastFret;
    return isOnNeck ? [{ ...note, fret: typedFret(setup, fret(there)) }] : [];
  });
  return notes.length === fill.notes.length ? { ...fill, notes } : undefined;
}

/** The phrase so many semitones higher; a note that no scale reaches is left out. */
export function movedPhrase(phrase: PhraseCopy, by: number): PhraseCopy {
  const melody = phrase.melody
    .map((note) => ({ ...note, pitch: note.pitch + by }))
    .filter(({ pitch }) => pitch >= 0 && pitch <= midiNoteMax);
  return { ...phrase, melody };
}
