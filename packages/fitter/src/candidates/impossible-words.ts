/** What is said of wishes that can't hold together, as a bandmate would say it. */
import type { Bar, Board, LaneId, Slot } from "@halflap/board/board";
import type { LaneWishes, WishName } from "@halflap/board/wishes";
import { pretty } from "@halflap/theory/display";
import { gripPitches } from "@halflap/theory/grip";
import { accidentalsOf } from "@halflap/theory/key";
import { pitchName } from "@halflap/theory/pitch";
import type { MidiNote } from "@halflap/theory/units";
import { slotWords } from "./silent.ts";

/** Wishes that leave a slot without a grip, with everything that the sentence names. */
export type Clash = {
  readonly board: Board;
  readonly lane: LaneId;
  readonly wishes: LaneWishes;
  readonly names: readonly WishName[];
  readonly slot: Slot;
  readonly bar: Bar;
};

/** So many string sets are still named one by one. */
const namedSetsMax = 3;

/**
 * "Gm7 in bar 3 has no grip on strings 3-2-1 between frets 1 and 2: let go of one of the two."
 */
export function impossibleWords(clash: Clash): string {
  const phrases = phrasesOf(clash);
  const where = slotWords(clash.slot, clash.bar);
  return `${where} has no grip ${phrases.join(" ")}: ${letGo(phrases.length)}.`;
}

function letGo(wishes: number): string {
  if (wishes === 1) return "ask for less there";
  return wishes === 2 ? "let go of one of the two" : "let go of one of them";
}

function phrasesOf(clash: Clash): readonly string[] {
  const { wishes, names } = clash;
  const has = (name: WishName) => names.includes(name);
  const { lowestFret, highestFret, lowest, highest, capo, rootless } = wishes;
  const note = (pitch: MidiNote) => pretty(pitchName(pitch, accidentalsOf(clash.board.key)));
  return [
    has("stringSets") ? onSets(wishes.stringSets) : undefined,
    has("stringsMin") || has("stringsMax") ? ofStrings(clash) : undefined,
    between(lowestFret, highestFret, {
      both: (low, high) => (low === high ? `at fret ${low}` : `between frets ${low} and ${high}`),
      from: (low) => `from fret ${low} up`,
      to: (high) => `up to fret ${high}`,
    }),
    between(lowest, highest, {
      both: (low, high) => `from ${note(low)} to ${note(high)}`,
      from: (low) => `with no note below ${note(low)}`,
      to: (high) => `with no note above ${note(high)}`,
    }),
    capo === undefined
      ? undefined
      : capo === 0
        ? "without a capo"
        : `with the capo on fret ${capo}`,
    rootless === false ? "with its root in it" : undefined,
    wishes.openStrings ? undefined : "without open strings",
    wishes.keepTop ? `with ${topWords(clash, note)} on top` : undefined,
    has("never") ? "but those that must not come" : undefined,
    has("locked") ? "while its own is locked" : undefined,
  ].flatMap((phrase) => phrase ?? []);
}

function onSets(sets: LaneWishes["stringSets"]): string {
  const named = sets.map((set) => set.join("-"));
  if (named.length > namedSetsMax) return "on the strings that are wished";
  return `on strings ${named.join(" or ")}`;
}

function ofStrings({ wishes, names }: Clash): string {
  const { stringsMin, stringsMax } = wishes;
  const strings = (count: number) => (count === 1 ? "one string" : `${count} strings`);
  if (stringsMin === stringsMax) return `of ${strings(stringsMin)}`;
  if (!names.includes("stringsMax")) return `of ${strings(stringsMin)} or more`;
  if (!names.includes("stringsMin")) return `of at most ${strings(stringsMax)}`;
  return `of ${stringsMin} to ${strings(stringsMax)}`;
}

function topWords({ board, lane, slot }: Clash, note: (pitch: MidiNote) => string): string {
  const { grips, setup } = board.lanes[lane];
  const grip = grips.get(slot.id);
  const top = grip && gripPitches(grip, setup).at(-1);
  return top === undefined ? "the same note" : note(top);
}

/** The bounds that are set, in words. */
function between<T>(
  low: T | undefined,
  high: T | undefined,
  words: {
    readonly both: (low: T, high: T) => string;
    readonly from: (low: T) => string;
    readonly to: (high: T) => string;
  },
): string | undefined {
  if (low !== undefined && high !== undefined) return words.both(low, high);
  if (low !== undefined) return words.from(low);
  return high === undefined ? undefined : words.to(high);
}
