/** The same grips with strings left out, or an octave elsewhere. */
import { type Grip, gripNotes, gripOf, printGrip } from "@halflap/theory/grip";
import { whyUnplayable } from "@halflap/theory/hand";
import { moveGrip } from "@halflap/theory/move-grip";
import { type StringNumber, stringNumbers } from "@halflap/theory/tuning";
import { semitones } from "@halflap/theory/units";
import { listed } from "../words.ts";
import {
  barWords,
  type Candidate,
  type Place,
  type Situation,
  type WayOutMaker,
} from "./candidate.ts";

/** One string alone is no chord any more. */
const stringsLeft = 2;

/** String sets that both hands can keep to while the other has the rest. */
const keptSets: readonly (readonly StringNumber[])[] = [
  [3, 2, 1],
  [4, 3, 2],
  [5, 4, 3],
  [6, 5, 4],
];

/** Strings left out: those that clash, or in a single slot one of them. */
export const fewerStrings: WayOutMaker = (situation) => {
  const clashing = situation.places.map((place) => clashingStrings(place, situation));
  const all = thinned(situation, (index) => clashing[index] ?? []);
  const one =
    situation.places.length === 1
      ? (clashing[0] ?? []).flatMap((string) => thinned(situation, () => [string]))
      : [];
  return [...all, ...one];
};

/** Only a small set of the strings is struck. */
export const smallerSets: WayOutMaker = (situation) =>
  keptSets.flatMap((kept) =>
    thinned(situation, () => stringNumbers.filter((string) => !kept.includes(string))),
  );

/** The same grips an octave up or down the neck. */
export const octaves: WayOutMaker = (situation) =>
  ([12, -12] as const).flatMap((by) => {
    const { board, setup } = situation;
    const moved = changed(situation, ({ grip, chord }) => {
      const found = moveGrip(grip, setup, semitones(by), chord, board.hasBass);
      return found.kind === "moved" && found.octave === 0 ? found.grip : undefined;
    });
    if (moved === undefined) return [];
    const where = by > 0 ? "up" : "down";
    const grips = moved.edits.length === 1 ? "The same grip" : "The same grips";
    const words = `${grips} an octave ${where} the neck in ${barWords(moved.bars)}`;
    return [{ kind: "octave", lane: situation.lane, edits: moved.edits, words, loss: 0 }];
  });

function thinned(
  situation: Situation,
  dropped: (index: number) => readonly StringNumber[],
): readonly Candidate[] {
  const gone = new Set<StringNumber>();
  const result = changed(situation, (place, index) => {
    const out = dropped(index);
    const frets = place.grip.frets.map((played, at) => {
      const string = stringNumbers[at];
      if (played === undefined || string === undefined || !out.includes(string)) return played;
      gone.add(string);
      return undefined;
    });
    const left = frets.filter((played) => played !== undefined).length;
    if (left < stringsLeft) return undefined;
    const grip = gripOf(frets);
    return whyUnplayable(grip, situation.setup) === undefined ? grip : undefined;
  });
  if (result === undefined || gone.size === 0) return [];
  const words = leaveOutWords(gone, result.bars);
  return [{ kind: "strings", lane: situation.lane, edits: result.edits, words, loss: 0 }];
}

/** "Leave out strings 6 and 5 in bar 1". */
export function leaveOutWords(
  gone: ReadonlySet<StringNumber>,
  bars: readonly Place["bar"][],
): string {
  const strings = stringNumbers.filter((string) => gone.has(string)).map(String);
  const noun = strings.length === 1 ? "string" : "strings";
  return `Leave out ${noun} ${listed(strings)} in ${barWords(bars)}`;
}

/** The strings that one grip leaves out of another; undefined when it is held otherwise. */
export function leftOut(before: Grip, after: Grip): ReadonlySet<StringNumber> | undefined {
  const isHeld = after.frets.every((fret, at) => fret === undefined || fret === before.frets[at]);
  const gone = stringNumbers.filter(
    (_, at) => before.frets[at] !== undefined && after.frets[at] === undefined,
  );
  return isHeld && gone.length > 0 ? new Set(gone) : undefined;
}

/** One change made to the grip of every slot; undefined when it can't be made to all of them. */
function changed(
  { places }: Situation,
  change: (place: Place & { readonly grip: Grip }, index: number) => Grip | undefined,
): (Pick<Candidate, "edits"> & { readonly bars: readonly Place["bar"][] }) | undefined {
  const edits: Candidate["edits"][number][] = [];
  const bars: Place["bar"][] = [];
  for (const [index, place] of places.entries()) {
    const { grip } = place;
    if (grip === undefined) continue;
    const next = change({ ...place, grip }, index);
    if (next === undefined) return undefined;
    if (printGrip(next) === printGrip(grip)) continue;
    edits.push({ kind: "grip", slot: place.slot.id, grip: printGrip(next) });
    bars.push(place.bar);
  }
  return edits.length === 0 ? undefined : { edits, bars };
}

/** The strings of the lane that sound what the finding names in the slot. */
function clashingStrings(
  { grip, slot }: Place,
  { finding, lane, setup }: Situation,
): readonly StringNumber[] {
  if (grip === undefined) return [];
  const named = finding.notes.filter((note) => note.lane === lane && note.slot === slot.id);
  return gripNotes(grip, setup)
    .filter((note) => named.some(({ pitch }) => pitch === note.pitch))
    .map((note) => note.string);
}
