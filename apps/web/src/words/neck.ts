/** Words of the neck panel. */
import type { Area, Count, StringChoice } from "../neck/filter.ts";

const small = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];

/** Small numbers spelled out, larger ones in figures. */
export function spelled(count: number): string {
  return small[count] ?? String(count);
}

/** "held", "one down", "two up": what a voice does, from signed semitones. */
export function motionWords(semitones: number): string {
  if (semitones === 0) return "held";
  return `${spelled(Math.abs(semitones))} ${semitones < 0 ? "down" : "up"}`;
}

/**
 * What a voice does that meets or parts with others: both ways when there are two, the way down to
 * the way up when there are more. "held, two up", "one down to nine up".
 */
export function motionsWords(semitones: readonly number[]): string {
  const ways = [...new Set(semitones)].sort((a, b) => a - b);
  const [first, last] = [ways[0], ways.at(-1)];
  if (first === undefined || last === undefined) return "";
  if (ways.length < 3) return ways.map(motionWords).join(", ");
  return `${motionWords(first)} to ${motionWords(last)}`;
}

/** Everything the panel says beside its choices. */
export const neckWords = {
  title: (bar: number) => `Bar ${bar}`,
  closeShort: "Close",
  held: (shape: string) => `held as ${shape} over the capo`,
  previous: "Slot before",
  next: "Slot after",
  readOnlyOther: (whose: string) => `This is ${whose}. Only its owner changes it.`,
  readOnlyFree: "Nobody has claimed this lane yet.",
  readOnlyListener: "You are listening in, so this neck is for looking.",
  neckLabel: (whose: string) => `Neck, ${whose}`,
  string: (number: number) => `String ${number}`,
  silentString: "silent",
  fretted: (fret: number, note: string) => `fret ${fret}, ${note}`,
  grip: "Grip",
  typeHint: "Low string first: x-x-3-2-4-x",
  noGrip: "No grip yet. Pick one below, tap the strings, or type it.",
  noGripReader: "No grip here yet.",
  problem: {
    "wrong-count": "A grip needs six strings, low to high, each a fret or x.",
    "unknown-fret": "That is neither a fret nor x.",
    "beyond-neck": "The neck has no such fret.",
    "nothing-sounds": "Not one string sounds. To rest, lay out instead.",
  },
  at: (column: number, read: string) => `At ${column + 1}: “${read}”.`,
  meant: (text: string) => `Use ${text}`,
  place: "Place",
  clear: "Clear",
  layOut: "Lay out",
  playAgain: "Play again",
  restsHere: "You rest in this bar. Its grips stay for later.",
  mark: "Mark",
  markHint: "let ring",
  mirror: "Left-handed",
  show: "Show",
  before: "before",
  after: "after",
  voicesFrom: (chord: string) => `from ${chord}`,
  voicesTo: (chord: string) => `to ${chord}`,
  voices: "Voices, low to high",
  strings: (set: string) => `strings ${set}`,
  rootless: "no root",
  suggestions: "Grips",
  suggestionsCount: (count: number) => (count === 1 ? "1 grip" : `${count} grips`),
  noSuggestions: "No grip of this chord fits these wishes. Ask for less:",
  everything: "Back to everyday wishes",
  notAChord: "No suggestions: this chord can’t be read. Correct it in the chart.",
  restChord: "N.C.: nobody plays a chord here.",
  more: (count: number) => `Show ${count} more`,
  /** After the words for the way in: the way in and the way on, which is what the order follows. */
  inAll: (semitones: number) => `; ${spelled(semitones)} both ways`,
  chosen: "chosen",
  filters: "Wishes",
  countLabel: "Strings that sound",
  stringsLabel: "Which strings",
  areaLabel: "Where on the neck",
  rootlessAllowed: "Root may be left out",
  openAllowed: "Open strings",
  mutesAllowed: "Silent strings inside",
  clearOnly: (whose: string) => `Only clear of ${whose}`,
  unplayable: "Hard to hold:",
  clearOf: (whose: string) => `clear of ${whose}`,
  shares: (count: number, whose: string) =>
    count === 1 ? `shares a note with ${whose}` : `shares ${spelled(count)} notes with ${whose}`,
  rubs: (mine: string, theirs: string) => `${mine} rubs against ${theirs}`,
  covers: (whose: string) => `same register as ${whose}`,
} as const;

/** The choices of how many strings sound. */
export const countWords: Readonly<Record<Count, string>> = {
  small: "three or four",
  two: "two",
  three: "three",
  four: "four",
  full: "five or six",
};

/** The choices of which strings may sound. */
export const stringWords: Readonly<Record<StringChoice, string>> = {
  any: "any",
  low: "6 to 3",
  middle: "5 to 2",
  high: "4 to 1",
};

/** The choices of where on the neck. */
export const areaWords: Readonly<Record<Area, string>> = {
  any: "anywhere",
  first: "frets 0 to 4",
  third: "frets 3 to 7",
  fifth: "frets 5 to 9",
  eighth: "frets 8 to 12",
  twelfth: "from 12 up",
};

/** Everything the dialog of tuning and capo says. */
export const setupWords = {
  open: "Tuning and capo",
  title: "Your guitar on this board",
  tuning: "Tuning",
  typed: "or type six notes, low to high",
  typedHint: "D A D G A D",
  problem: {
    "wrong-count": "A tuning has six notes, low string first, like D A D G A D.",
    "unknown-note": "That is not the name of a note.",
    "out-of-range": "No string is tuned that low or high.",
  },
  capo: "Capo",
  noCapo: "no capo",
  capoAt: (fret: number) => `fret ${fret}`,
  countFrom: "Count frets from",
  nut: "the nut",
  fromCapo: "the capo",
  own: "your own tuning",
  use: "Use it",
} as const;
