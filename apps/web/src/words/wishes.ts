/** Words of what a guitarist wishes of a part that is fitted. */
import type { WishName } from "@halflap/board/wishes";

/** Each wish as it is named where one of them has to go. */
export const wishNames: Readonly<Record<WishName, string>> = {
  leaveAsIs: "the part as it is",
  lowest: "the lowest note",
  highest: "the highest note",
  stringSets: "the string sets",
  stringsMin: "at least so many strings",
  stringsMax: "at most so many strings",
  lowestFret: "the lowest fret",
  highestFret: "the highest fret",
  capo: "the capo",
  rootless: "roots left out or not",
  openStrings: "no open strings",
  keepTop: "the notes on top",
  liked: "the liked grips",
  never: "the grips never to come",
  locked: "the lock on this slot",
};

/** Everything that the fields of the wishes say. */
export const wishWords = {
  mine: "My wishes",
  theirs: (whose: string) => `Wishes for ${whose}`,
  none: "nothing special",
  count: (count: number) => (count === 1 ? "1 set" : `${count} set`),
  hint: "Kept in your lane; the other player sees them.",
  usual: "Back to the usual",
  leaveAsIs: "Leave my part as it is",
  keepTop: "Keep my notes on top",
  openStrings: "Open strings",
  from: "Lowest note",
  to: "Highest note",
  any: "any",
  anyFret: "any fret",
  stringsFrom: "Strings, at least",
  stringsTo: "at most",
  fretFrom: "Lowest fret",
  fretTo: "Highest fret",
  fretsHint: "Frets count from the nut.",
  fretNumber: (fret: number) => `fret ${fret}`,
  capo: "Capo",
  capoStays: "where it lies",
  noCapo: "none",
  rootless: "Roots may be left out",
  rootlessUsual: "when somebody plays bass",
  yes: "yes",
  no: "no",
  sets: "Only these strings",
  setsHint: "None pressed: any strings. Your own, low string first: 5-3-2",
  setsField: "Another set of strings",
  setsAdd: "Add",
  setsProblem: (read: string) =>
    `“${read}” is no set of strings. Write two to six of them, low first, like 5-3-2.`,
  setsFull: (most: number) => `More than ${most} sets of strings are not kept.`,
  here: (chord: string, bar: number) => `${chord} in bar ${bar}`,
  gripHere: "The grip you stand on",
  noGripHere: "Stand on a slot of your part with a grip to lock, like or ban it.",
  like: "Like it",
  ban: "Never again",
  lock: "Lock it here",
  liked: "Liked",
  never: "Never",
  takeOff: (grip: string) => `Take ${grip} off the list`,
  gripsFull: (most: number) => `More than ${most} grips are not kept.`,
  locked: (count: number) => (count === 1 ? "1 slot locked" : `${count} slots locked`),
  unlockAll: "Unlock all",
  lockFromNeck: "Lock for the fit",
  lockMeaning: "A fit leaves this grip as it is.",
  strings: (sets: string) => `strings ${sets}`,
  stringCount: (least: number, most: number) =>
    least === most ? `${least} strings` : `${least} to ${most} strings`,
  register: (low: string | undefined, high: string | undefined) => between("notes", low, high),
  frets: (low: number | undefined, high: number | undefined) => between("frets", low, high),
  capoAt: (fret: number) => (fret === 0 ? "no capo" : `capo ${fret}`),
  withRoots: "with their roots",
  withoutRoots: "roots may be left out",
  noOpen: "no open strings",
  topKept: "notes on top kept",
  asItIs: "left as it is",
  likes: (grips: string) => `likes ${grips}`,
  bans: (grips: string) => `never ${grips}`,
} as const;

function between(
  what: string,
  low: string | number | undefined,
  high: string | number | undefined,
): string {
  if (low === undefined) return `${what} up to ${high}`;
  return high === undefined ? `${what} from ${low}` : `${what} ${low} to ${high}`;
}
