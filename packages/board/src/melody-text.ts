/** Sung melodies as they are typed, `3 F4 3.5 A4`. SPEC.md section 7. */
import type { Reading } from "@halflap/theory/chord";
import { asciiAccidentals, midiOf, pitchName } from "@halflap/theory/pitch";
import { ticks } from "@halflap/theory/units";
import {
  beatsOf,
  beatsText,
  type NotesTextError,
  printBeat,
  readGroups,
  type Stretch,
  ticksOf,
  wrong,
} from "./beat-text.ts";
import { sungNotesMax } from "./limits.ts";
import type { SungNote } from "./singing.ts";

/**
 * The notes of a typed melody. Each lasts to the next or the end of the phrase, unless its length
 * in beats is said.
 */
export function parseMelodyText(
  text: string,
  stretch: Stretch,
): Reading<readonly SungNote[], NotesTextError> {
  const groups = readGroups(text, stretch);
  if (!groups.ok) return groups;
  const melody: SungNote[] = [];
  for (const group of groups.value) {
    const [, name = "", said] = /^([^/]*)(?:\/(.+))?$/.exec(group.text) ?? [];
    const pitch = midiOf(asciiAccidentals(name));
    if (pitch === undefined) {
      return wrong(group, "Write a note with its octave: F4; C4 is middle C.");
    }
    const beats = said === undefined ? undefined : beatsOf(said);
    if (said !== undefined && beats === undefined) {
      return wrong(group, "After the slash stands how many beats the note lasts: /1.5");
    }
    const most = group.end - group.start;
    const length = beats === undefined ? most : ticksOf(beats, stretch);
    if (length === 0 || length > most) {
      return wrong(group, "A note lasts to the next one at most, and not beyond the phrase.");
    }
    if (melody.length === sungNotesMax) {
      return wrong(group, `A phrase has ${sungNotesMax} notes at most.`);
    }
    melody.push({ start: group.start, length: ticks(length), pitch });
  }
  return { ok: true, value: melody };
}

/** The melody as text; reading it gives the same notes. */
export function printMelodyText(
  melody: readonly SungNote[],
  stretch: Stretch,
  accidentals: "sharps" | "flats" = "flats",
): string {
  return melody
    .map(({ start, length, pitch }, i) => {
      const end = melody[i + 1]?.start ?? stretch.length;
      const said = length === end - start ? "" : `/${beatsText(length, stretch)}`;
      return `${printBeat(start, stretch)} ${pitchName(pitch, accidentals)}${said}`;
    })
    .join("  ");
}
