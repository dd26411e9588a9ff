/** Writing a fill on a grid of strings and steps; notes last to the next one unless said so. */
import type { Meter } from "@halflap/board/board";
import { beatOf } from "@halflap/board/meter";
import type { Fill, FillNote, FillWay } from "@halflap/board/playing";
import type { StringNumber } from "@halflap/theory/tuning";
import { type Fret, type Ticks, ticks, ticksPerQuarter } from "@halflap/theory/units";

/** Where a string and a step of the grid meet; the start counts from the start of the fill. */
export type Crossing = { readonly start: Ticks; readonly string: StringNumber };

/** A note that may last to the next one: then its length is undefined. */
export type LooseNote = Omit<FillNote, "length"> & { readonly length: Ticks | undefined };

/** The steps that a tab grid can have, the widest first: eighths, their triplets, sixteenths … */
export const tabSteps: readonly Ticks[] = [24, 16, 12, 8, 6].map(ticks);

/** The widest grid on which all notes of a fill stand; the finest where none holds them all. */
export function tabStepOf(fill: Pick<Fill, "start" | "notes">): Ticks {
  const fits = (step: Ticks) => fill.notes.every(({ start }) => start % step === 0);
  return tabSteps.find(fits) ?? ticks(6);
}

/** The columns of a grid: where each step starts, and wherever else a note does. */
export function columnsOf(fill: Pick<Fill, "length" | "notes">, step: Ticks): readonly Ticks[] {
  const count = Math.ceil(fill.length / step);
  const steps = Array.from({ length: count }, (_, index) => index * step);
  const starts = new Set<number>([...steps, ...fill.notes.map(({ start }) => start)]);
  return [...starts].sort((a, b) => a - b).map(ticks);
}

/** The note that is struck on a crossing. */
export function noteAt(notes: readonly FillNote[], at: Crossing): FillNote | undefined {
  return notes.find((note) => note.start === at.start && note.string === at.string);
}

/** The notes, those that last to the next one without a length of their own. */
export function loosened({ notes, length }: Pick<Fill, "notes" | "length">): readonly LooseNote[] {
  return notes.map((note) =>
    note.start + note.length === nextStart(notes, note.start, length)
      ? { ...note, length: undefined }
      : note,
  );
}

/**
 * The notes that fit a fill of this length: what starts later is gone, what lasts longer, or into
 * the next note on its string, is cut.
 */
export function tightened(loose: readonly LooseNote[], length: Ticks): readonly FillNote[] {
  const inside = loose
    .filter(({ start }) => start < length)
    .sort((a, b) => a.start - b.start || b.string - a.string);
  return inside.map((note) => {
    const next = inside.find(({ string, start }) => string === note.string && start > note.start);
    const most = (next?.start ?? length) - note.start;
    const wanted = note.length ?? nextStart(inside, note.start, length) - note.start;
    return { ...note, length: ticks(Math.min(wanted, most)) };
  });
}

/** The fill's notes with another fret on a crossing; a new note is plucked. */
export function withFret(fill: Fill, at: Crossing, typed: Fret): readonly FillNote[] {
  const before = loosened(fill).find((note) => isOn(note, at));
  const plucked = { length: undefined, way: "pluck", bend: 0, letRing: false } as const;
  return withNote(fill, { ...plucked, ...before, ...at, fret: typed });
}

/** The fill's notes with one of them sounded another way; a bend goes up a whole tone at first. */
export function withWay(fill: Fill, at: Crossing, way: FillWay): readonly FillNote[] {
  return changed(fill, at, (note) => ({
    ...note,
    way,
    bend: way === "bend" ? note.bend || 2 : 0,
  }));
}

/** The fill's notes with one of them bent this many semitones. */
export function withBend(fill: Fill, at: Crossing, bend: number): readonly FillNote[] {
  return changed(fill, at, (note) => ({ ...note, bend }));
}

/** The fill's notes with one of them ringing on, or not. */
export function withRing(fill: Fill, at: Crossing, letRing: boolean): readonly FillNote[] {
  return changed(fill, at, (note) => ({ ...note, letRing }));
}

/** The fill's notes with one of them of this length; undefined = to the next one. */
export function withLength(
  fill: Fill,
  at: Crossing,
  length: Ticks | undefined,
): readonly FillNote[] {
  return changed(fill, at, (note) => ({ ...note, length }));
}

/** The fill's notes without one. */
export function without(fill: Fill, at: Crossing): readonly FillNote[] {
  return tightened(
    loosened(fill).filter((note) => !isOn(note, at)),
    fill.length,
  );
}

/** The fill with another length and its notes cut to it. */
export function withFillLength(fill: Fill, length: Ticks): Fill {
  return { ...fill, length, notes: tightened(loosened(fill), length) };
}

/** What a key asks for on a crossing. */
export type TabAct =
  | { readonly kind: "walk"; readonly columns: number; readonly strings: number }
  | { readonly kind: "fret"; readonly fret: number }
  | { readonly kind: "way"; readonly way: FillWay }
  | { readonly kind: "ring" }
  | { readonly kind: "remove" };

type Press = Pick<KeyboardEvent, "key" | "ctrlKey" | "metaKey" | "altKey">;

const wayKeys: Readonly<Record<string, FillWay>> = {
  h: "hammer-on",
  p: "pull-off",
  s: "slide",
  b: "bend",
  n: "pluck",
};

/** The act of a key; undefined for other keys. `typed` is the fret that it makes as a digit. */
export function tabKey(press: Press, typed: number | undefined): TabAct | undefined {
  if (press.ctrlKey || press.metaKey || press.altKey) return undefined;
  const way = wayKeys[press.key.toLowerCase()];
  switch (press.key) {
    case "ArrowLeft":
      return { kind: "walk", columns: -1, strings: 0 };
    case "ArrowRight":
      return { kind: "walk", columns: 1, strings: 0 };
    case "ArrowUp":
      return { kind: "walk", columns: 0, strings: -1 };
    case "ArrowDown":
      return { kind: "walk", columns: 0, strings: 1 };
    case "Delete":
    case "Backspace":
      return { kind: "remove" };
    case "r":
    case "R":
      return { kind: "ring" };
    default:
      if (way !== undefined) return { kind: "way", way };
      return typed === undefined ? undefined : { kind: "fret", fret: typed };
  }
}

/** Where a fill starts that is added to a bar: its second half, or the first if that is free. */
export function roomForFill(
  length: Ticks,
  meter: Meter,
  taken: readonly { readonly start: number; readonly end: number }[],
): { readonly start: Ticks; readonly length: Ticks } {
  const beat = beatOf(meter);
  const beats = length / beat;
  const middle = beats >= 2 ? Math.ceil(beats / 2) * beat : 0;
  const isTaken = (from: number, to: number) =>
    taken.some(({ start, end }) => start < to && end > from);
  const goesFirst = middle > 0 && isTaken(middle, length) && !isTaken(0, middle);
  return goesFirst
    ? { start: ticks(0), length: ticks(middle) }
    : { start: ticks(middle), length: ticks(length - middle) };
}

/** Where in its bar a fill may start: on every sixteenth, and where it does. */
export function fillStarts(length: number, now: Ticks): readonly Ticks[] {
  const count = Math.ceil(length / sixteenth);
  const grid = Array.from({ length: count }, (_, index) => index * sixteenth);
  return inOrder([...grid, now]);
}

/** How long a fill may be: half beats to the end of its section, two bars or so, and what it is. */
export function fillLengths(room: number, now: Ticks): readonly Ticks[] {
  const half = 2 * sixteenth;
  const count = Math.min(16, Math.floor(room / half));
  return inOrder([...Array.from({ length: count }, (_, index) => (index + 1) * half), now]);
}

/** How long a note may last before the next on its string: sixteenths, and what it does. */
export function noteLengths(fill: Fill, note: FillNote): readonly Ticks[] {
  const next = fill.notes.find(({ string, start }) => string === note.string && start > note.start);
  const room = (next?.start ?? fill.length) - note.start;
  const count = Math.min(16, Math.floor(room / sixteenth));
  const grid = Array.from({ length: count }, (_, index) => (index + 1) * sixteenth);
  return inOrder([...grid, note.length]);
}

const sixteenth = ticksPerQuarter / 4;

function inOrder(values: readonly number[]): readonly Ticks[] {
  return [...new Set(values)].sort((a, b) => a - b).map(ticks);
}

function withNote(fill: Fill, note: LooseNote): readonly FillNote[] {
  const others = loosened(fill).filter((each) => !isOn(each, note));
  return tightened([...others, note], fill.length);
}

function changed(
  fill: Fill,
  at: Crossing,
  change: (note: LooseNote) => LooseNote,
): readonly FillNote[] {
  return tightened(
    loosened(fill).map((note) => (isOn(note, at) ? change(note) : note)),
    fill.length,
  );
}

function isOn(note: Crossing, at: Crossing): boolean {
  return note.start === at.start && note.string === at.string;
}

function nextStart(notes: readonly Pick<FillNote, "start">[], start: number, end: number): number {
  return Math.min(end, ...notes.map((note) => note.start).filter((each) => each > start));
}
