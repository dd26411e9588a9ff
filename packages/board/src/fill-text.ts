/** Fills as they are typed, `3 2:10 3.5 h2:12 4 2:10+1:10`. SPEC.md section 7. */
import type { Reading } from "@halflap/theory/chord";
import { neckFret, type Setup, stringNumbers } from "@halflap/theory/tuning";
import { fret, fretMax, type Ticks, ticks } from "@halflap/theory/units";
import {
  beatsOf,
  beatsText,
  type NoteGroup,
  type NotesTextError,
  printBeat,
  readGroups,
  type Stretch,
  ticksOf,
  wrong,
} from "./beat-text.ts";
import { bendMax, bendMin, fillNotesMax } from "./limits.ts";
import type { FillNote, FillWay } from "./playing.ts";
import { isBend } from "./playing-state.ts";

type Word = { readonly text: string; readonly column: number };
type Place = Pick<FillNote, "string" | "fret" | "way" | "bend">;

const signs: Readonly<Record<FillWay, string>> = {
  pluck: "",
  "hammer-on": "h",
  "pull-off": "p",
  slide: "s",
  bend: "b",
};
const note = /^([hpsb]?)(\d{1,2}):(\d{1,3})(?:\^([^*/]+))?(\*?)(?:\/(.+))?$/;

/**
 * The notes of a typed fill, on a guitar that is set up so. Each is struck on its beat and lasts to
 * the next group or the end of the fill, unless its length in beats is said.
 */
export function parseFillText(
  text: string,
  stretch: Stretch,
  setup: Setup,
): Reading<readonly FillNote[], NotesTextError> {
  const groups = readGroups(text, stretch);
  if (!groups.ok) return groups;
  const notes: FillNote[] = [];
  for (const group of groups.value) {
    for (const word of wordsOf(group)) {
      const read = readNote(word, group, stretch, setup);
      if (!read.ok) return read;
      const fault = faultOf(read.value, notes, stretch);
      if (fault !== undefined) return wrong(word, fault);
      if (notes.length === fillNotesMax) {
        return wrong(word, `A fill has ${fillNotesMax} notes at most.`);
      }
      notes.push(read.value);
    }
  }
  return { ok: true, value: notes.sort((a, b) => a.start - b.start || b.string - a.string) };
}

/** The fill as text; reading it gives the same notes. */
export function printFillText(notes: readonly FillNote[], stretch: Stretch): string {
  const starts = [...new Set(notes.map(({ start }) => start))];
  return starts
    .map((start, i) => {
      const end = starts[i + 1] ?? stretch.length;
      const struck = notes.filter((each) => each.start === start);
      const words = struck.map((each) => {
        const length = each.length === end - start ? "" : `/${beatsText(each.length, stretch)}`;
        const bend = each.way === "bend" ? `^${each.bend}` : "";
        const ring = each.letRing ? "*" : "";
        return `${signs[each.way]}${each.string}:${each.fret}${bend}${ring}${length}`;
      });
      return `${printBeat(start, stretch)} ${words.join("+")}`;
    })
    .join("  ");
}

/** The notes of a group that are struck together. */
function wordsOf({ text, column }: NoteGroup): readonly Word[] {
  let place = column;
  return text.split("+").map((word) => {
    const found = { text: word, column: place };
    place += word.length + 1;
    return found;
  });
}

function readNote(
  word: Word,
  { start, end }: NoteGroup,
  stretch: Stretch,
  setup: Setup,
): Reading<FillNote, NotesTextError> {
  const [, sign, string = "", typed = "", bend, ring, beats] = note.exec(word.text) ?? [];
  if (sign === undefined) {
    return wrong(word, "Write string and fret, as 2:10 for fret 10 of string 2.");
  }
  const place = placeOf(word, sign, string, typed, bend);
  if (!place.ok) return place;
  if (neckFret(setup, place.value.fret) === undefined) {
    return wrong(word, `Fret ${typed} is not on this neck.`);
  }
  const length = beats === undefined ? ticks(end - start) : lengthOf(beats, stretch);
  if (length === undefined || length === 0) {
    return wrong(word, "After the slash stands how many beats the note lasts: /1.5");
  }
  const letRing = ring === "*";
  return { ok: true, value: { start, length, ...place.value, letRing } };
}

function placeOf(
  word: Word,
  sign: string,
  typedString: string,
  typedFret: string,
  typedBend: string | undefined,
): Reading<Place, NotesTextError> {
  const string = stringNumbers.find((known) => known === Number(typedString));
  if (string === undefined) {
    return wrong(word, "Strings go from 6, the lowest, to 1, the highest.");
  }
  if (Number(typedFret) > fretMax) return wrong(word, `Frets go up to ${fretMax}.`);
  const way = wayOf(sign);
  if (way !== "bend" && typedBend !== undefined) {
    return wrong(
      word,
      "How far a string is bent stands after a bend.",
      `b${word.text.slice(sign.length)}`,
    );
  }
  const bend = way === "bend" ? beatsOf(typedBend ?? "") : 0;
  if (way === "bend" && !isBend(bend)) {
    const words = `A bend goes up ${bendMin} to ${bendMax} semitones, in halves.`;
    return wrong(word, words, `b${typedString}:${typedFret}^1`);
  }
  return { ok: true, value: { string, fret: fret(Number(typedFret)), way, bend: bend ?? 0 } };
}

function wayOf(sign: string): FillWay {
  switch (sign) {
    case "h":
      return "hammer-on";
    case "p":
      return "pull-off";
    case "s":
      return "slide";
    case "b":
      return "bend";
    default:
      return "pluck";
  }
}

function lengthOf(text: string, stretch: Stretch): Ticks | undefined {
  const beats = beatsOf(text);
  return beats === undefined ? undefined : ticksOf(beats, stretch);
}

/** Why a note can't follow those before it; undefined when it can. */
function faultOf(
  played: FillNote,
  before: readonly FillNote[],
  stretch: Stretch,
): string | undefined {
  const last = before.filter(({ string }) => string === played.string).at(-1);
  if (played.start + played.length > stretch.length) return "This note lasts beyond the fill.";
  if (last !== undefined && last.start + last.length > played.start) {
    return last.start === played.start
      ? `String ${played.string} can't sound two notes at once.`
      : `The note before on string ${played.string} lasts longer than that.`;
  }
  return wayFault(played, last);
}

function wayFault({ way, string, fret: to }: FillNote, last: FillNote | undefined) {
  if (way === "pluck" || way === "bend") return undefined;
  if (last === undefined) return `A ${way} goes on from a note before it on string ${string}.`;
  if (way === "hammer-on" && to <= last.fret) {
    return `A hammer-on goes up, and the note before is on fret ${last.fret}.`;
  }
  if (way === "pull-off" && to >= last.fret) {
    return `A pull-off goes down, and the note before is on fret ${last.fret}.`;
  }
  return to === last.fret ? "A slide ends on another fret." : undefined;
}
