/** What players call a grip: how its notes are spaced, and the open chord it is a moved copy of. */
import type { SoundingChord } from "./chord.ts";
import { degreeNumber } from "./degree.ts";
import { type Grip, type GripNote, gripNotes } from "./grip.ts";
import { neckFret, type Setup, standardTuning, stringCount, typedFret } from "./tuning.ts";
import { type Fret, fret, pitchClass, type Semitones, semitones } from "./units.ts";

/** How the notes of a grip on three or four strings lie: SPEC.md T17. */
export type Spacing = "shell" | "close" | "drop 2" | "drop 3" | "open";

/** The open chords that movable grips are named after. */
export type FormLetter = "C" | "A" | "G" | "E" | "D";

/** The open chord a grip is a moved copy of: SPEC.md T18. */
export type GripForm = {
  readonly letter: FormLetter;
  /** Where the nut has moved to, as the lane counts its frets; 0 = the open chord itself. */
  readonly fret: Fret;
};

/** A tone of the triad: the root, the third or what is suspended in its place, the fifth. */
type Part = 1 | 3 | 5;
type Form = {
  readonly letter: FormLetter;
  readonly root: number;
  /** Frets from the nut, string 6 first, with the part each string sounds. */
  readonly strings: readonly (readonly [number, Part] | undefined)[];
};

/** The five open major chords: common practice, no source. */
const forms: readonly Form[] = [
  { letter: "C", root: 0, strings: [undefined, [3, 1], [2, 3], [0, 5], [1, 1], [0, 3]] },
  { letter: "A", root: 9, strings: [undefined, [0, 1], [2, 5], [2, 1], [2, 3], [0, 5]] },
  {
    letter: "G",
    root: 7,
    strings: [
      [3, 1],
      [2, 3],
      [0, 5],
      [0, 1],
      [0, 3],
      [3, 1],
    ],
  },
  {
    letter: "E",
    root: 4,
    strings: [
      [0, 1],
      [2, 5],
      [2, 1],
      [1, 3],
      [0, 5],
      [0, 1],
    ],
  },
  { letter: "D", root: 2, strings: [undefined, undefined, [0, 1], [2, 5], [3, 1], [2, 3]] },
];

/** A colour or an altered tone lies at most a fret outside the form it is added to. */
const formMargin = 1;
/** So far a third or fifth may be raised, lowered or suspended and still be the form's own. */
const alterationMax = 2;
const octave = 12;

/**
 * How the grip's notes are spaced. undefined for fewer than three tones and on five or six
 * strings, where nobody speaks of it.
 */
export function spacingOf(grip: Grip, setup: Setup, chord: SoundingChord): Spacing | undefined {
  const notes = [...gripNotes(grip, setup)].sort((one, other) => one.pitch - other.pitch);
  const [lowest, second, third, highest = third] = notes.map((note) => note.pitch);
  if (lowest === undefined || second === undefined || third === undefined) return undefined;
  if (highest === undefined || notes.length > 4) return undefined;
  if (new Set(notes.map((note) => note.pitch % octave)).size < 3) return undefined;
  const numbers = notes.map((note) => numberOf(note, chord));
  if (isShell(numbers)) return "shell";
  const raised = lowest + octave;
  if (isFourPart(numbers) && highest - second < octave) {
    if (raised > third && raised < highest) return "drop 2";
    if (raised > second && raised < third) return "drop 3";
  }
  return highest - lowest <= octave ? "close" : "open";
}

/**
 * The open chord the grip is a moved copy of: the one that lies where the grip lies and agrees
 * with it on most strings. undefined when two agree as well, when fewer than two strings agree,
 * and where the strings are not a fourth, fourth, fourth, third and fourth apart.
 */
export function formOf(grip: Grip, setup: Setup, chord: SoundingChord): GripForm | undefined {
  const lowered = tunedBy(setup);
  if (lowered === undefined) return undefined;
  const notes = gripNotes(grip, setup);
  const matches = forms.flatMap((form) => {
    const first = pitchClass(chord.rootClass - form.root - lowered);
    return [first, first + octave]
      .filter((nut) => nut >= setup.capo && nut <= setup.lastFret)
      .map((nut) => ({ form, nut, agreed: agreement(notes, form, nut, setup, chord) }));
  });
  matches.sort((one, other) => other.agreed - one.agreed);
  const [best, next] = matches;
  if (best === undefined || best.agreed < 2 || best.agreed === next?.agreed) return undefined;
  return { letter: best.form.letter, fret: typedFret(setup, fret(best.nut)) };
}

/** "shell", "drop 2", "close voicing", "open voicing". */
export function spacingWords(spacing: Spacing): string {
  return spacing === "close" || spacing === "open" ? `${spacing} voicing` : spacing;
}

/** "E form at fret 1", or "open E form". */
export function formWords(form: GripForm): string {
  return form.fret === 0 ? `open ${form.letter} form` : `${form.letter} form at fret ${form.fret}`;
}

/** The root lowest, and above it the third and the seventh, or the sixth of a sixth chord. */
function isShell([lowest, ...others]: readonly number[]): boolean {
  const above = others.sort((one, other) => one - other).join(" ");
  return lowest === 1 && (above === "3 7" || above === "3 6");
}

/**
 * One each of root, third, fifth and seventh, or of what stands in their places: ninth, fourth,
 * thirteenth or sharp eleventh, sixth.
 */
function isFourPart(numbers: readonly number[]): boolean {
  const eleventh = numbers.includes(3) ? 5 : 3;
  const places: Readonly<Record<number, number>> = {
    1: 1,
    9: 1,
    2: 3,
    3: 3,
    4: 3,
    11: eleventh,
    5: 5,
    13: 5,
    6: 7,
    7: 7,
  };
  const parts = new Set(numbers.map((number) => places[number]));
  return numbers.length === 4 && parts.size === 4 && !parts.has(undefined);
}

/** The number of the degree a note has in the chord, 7 for "b7"; 0 when it is foreign. */
function numberOf(note: GripNote, chord: SoundingChord): number {
  const tone = [...chord.tones, ...chord.tensions].find(
    (each) => each.pitchClass === note.pitch % octave,
  );
  return tone === undefined ? 0 : degreeNumber(tone.degree);
}

/** How far the strings are tuned from standard, all alike; undefined when they are not. */
function tunedBy(setup: Setup): Semitones | undefined {
  const distances = setup.tuning.map((open, index) => open - (standardTuning[index] ?? 0));
  const [first = 0] = distances;
  return distances.every((each) => each === first) ? semitones(first) : undefined;
}

/** On how many strings grip and form have the same part; 0 when the grip lies elsewhere. */
function agreement(
  notes: readonly GripNote[],
  form: Form,
  nut: number,
  setup: Setup,
  chord: SoundingChord,
): number {
  const highest = nut + Math.max(...form.strings.map((each) => each?.[0] ?? 0));
  let agreed = 0;
  for (const note of notes) {
    const place = neckFret(setup, note.fret) ?? 0;
    if (place < nut - formMargin || place > highest + formMargin) return 0;
    const [above, part] = form.strings[stringCount - note.string] ?? [];
    const isNear = above !== undefined && Math.abs(place - nut - above) <= alterationMax;
    if (isNear && partOf(numberOf(note, chord)) === part) agreed++;
  }
  return agreed;
}

function partOf(number: number): Part | undefined {
  if (number === 1 || number === 5) return number;
  return number >= 2 && number <= 4 ? 3 : undefined;
}
