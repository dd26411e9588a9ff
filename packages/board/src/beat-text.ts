/** Notes typed by beats, `3 … 3.5 … 4& …`: where each group of them starts and ends. */
import type { Reading } from "@halflap/theory/chord";
import { type Ticks, ticks } from "@halflap/theory/units";
import { notesTextMax } from "./limits.ts";

/** The stretch that is written: from `start` in its bar, and how long a beat lasts there. */
export type Stretch = { readonly start: Ticks; readonly length: Ticks; readonly beat: Ticks };

/** Why a text is not understood: 0-based column, the part, a sentence, and what was meant. */
export type NotesTextError = {
  readonly column: number;
  readonly read: string;
  readonly words: string;
  readonly meant: string | undefined;
};

/** What stands after a beat: its text and column, and from when to when, from the stretch on. */
export type NoteGroup = {
  readonly text: string;
  readonly column: number;
  readonly start: Ticks;
  /** Where the next group starts, or the stretch ends. */
  readonly end: Ticks;
};

type Word = { readonly text: string; readonly column: number };

const parts = { "": 0, "¼": 0.25, "½": 0.5, "¾": 0.75, "&": 0.5 } as const;
const number = /^(\d{0,3})(?:[.,](\d{1,3})|([¼½¾&]))?$/;

/** The groups of a text, each a beat and what is played on it, one after the other. */
export function readGroups(
  text: string,
  stretch: Stretch,
): Reading<readonly NoteGroup[], NotesTextError> {
  if (text.length > notesTextMax) return wrong({ text: "", column: 0 }, "This is too long.");
  const words = [...text.matchAll(/\S+/g)].map((found) => ({
    text: found[0],
    column: found.index,
  }));
  const starts: { readonly start: Ticks; readonly note: Word }[] = [];
  for (let i = 0; i < words.length; i += 2) {
    const [beat, note] = [words[i], words[i + 1]];
    if (beat === undefined) break;
    const start = startOf(beat, stretch, starts.at(-1)?.start);
    if (!start.ok) return start;
    if (note === undefined || beatsOf(note.text) !== undefined) {
      return wrong(beat, "What is played on this beat?");
    }
    starts.push({ start: start.value, note });
  }
  const value = starts.map(({ start, note }, i) => ({
    ...{ ...note, start, end: starts[i + 1]?.start ?? stretch.length },
  }));
  return { ok: true, value };
}

/** How many beats a text says: 3, 3.5, 3½ or 3&; undefined where it says none. */
export function beatsOf(text: string): number | undefined {
  const [, whole = "", decimals = "", part = ""] = number.exec(text) ?? [];
  const fraction = Object.entries(parts).find(([sign]) => sign === part)?.[1] ?? 0;
  if (whole === "" && fraction === 0) return undefined;
  return Number(`${whole || 0}.${decimals || 0}`) + fraction;
}

/** How long a number of beats lasts, on the nearest tick. */
export function ticksOf(beats: number, { beat }: Stretch): Ticks {
  return ticks(Math.round(beats * beat));
}

/** Where in its bar something starts, counted in beats from 1: "3.5". */
export function printBeat(start: Ticks, stretch: Stretch): string {
  return beatsText(stretch.start + start + stretch.beat, stretch);
}

/** A length in beats: "1.5"; reading it gives the same length. */
export function beatsText(length: number, { beat }: Stretch): string {
  const decimals = [0, 1, 2, 3].find(
    (count) => Math.round(Number((length / beat).toFixed(count)) * beat) === length,
  );
  return String(Number((length / beat).toFixed(decimals ?? 3)));
}

/** A text that is not understood, at a part of it. */
export function wrong(
  word: Word,
  words: string,
  meant?: string,
): { readonly ok: false; readonly error: NotesTextError } {
  return { ok: false, error: { column: word.column, read: word.text, words, meant } };
}

function startOf(
  word: Word,
  stretch: Stretch,
  before: Ticks | undefined,
): Reading<Ticks, NotesTextError> {
  const beats = beatsOf(word.text);
  if (beats === undefined) {
    return wrong(
      word,
      "Say first on which beat this starts.",
      `${printBeat(ticks(0), stretch)} ${word.text}`,
    );
  }
  const start = Math.round((beats - 1) * stretch.beat) - stretch.start;
  if (start < 0 || start >= stretch.length) {
    const [from, to] = [printBeat(ticks(0), stretch), printBeat(stretch.length, stretch)];
    return wrong(word, `Beat ${word.text} lies outside: this goes from beat ${from} to ${to}.`);
  }
  if (before !== undefined && start <= before) {
    return wrong(word, "The beats go forward; notes struck together are joined by +.");
  }
  return { ok: true, value: ticks(start) };
}
