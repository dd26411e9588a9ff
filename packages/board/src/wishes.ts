/** What a guitarist asks of a part that is fitted for them; kept in their lane. */
import type { Grip } from "@halflap/theory/grip";
import type { StringNumber } from "@halflap/theory/tuning";
import type { Fret, MidiNote } from "@halflap/theory/units";
import type { SlotId } from "./ids.ts";

/** Every wish holds as long as it is not taken back; the usual ones leave everything open. */
export type LaneWishes = {
  /** The part as it is: nothing of it is changed. */
  readonly leaveAsIs: boolean;
  /** Sounding pitches stay within; undefined = no bound. */
  readonly lowest: MidiNote | undefined;
  readonly highest: MidiNote | undefined;
  /** Sets of strings that may be used, each low string first; empty = any. */
  readonly stringSets: readonly (readonly StringNumber[])[];
  /** How many strings sound. */
  readonly stringsMin: number;
  readonly stringsMax: number;
  /** Stopped frets, counted from the nut; undefined = no bound. */
  readonly lowestFret: Fret | undefined;
  readonly highestFret: Fret | undefined;
  /** Where the capo shall lie; undefined = where it lies. */
  readonly capo: Fret | undefined;
  /** Whether roots may be left out; undefined = when somebody plays bass. */
  readonly rootless: boolean | undefined;
  readonly openStrings: boolean;
  /** The notes on top stay what they are, wherever there is a grip. */
  readonly keepTop: boolean;
  /** Grips that are welcome, and grips that must not come, whatever the chord. */
  readonly liked: readonly Grip[];
  readonly never: readonly Grip[];
  /** Slots whose grip stays. */
  readonly locked: ReadonlySet<SlotId>;
};

/** Small voicings, and nothing else asked. */
export const usualWishes: LaneWishes = {
  leaveAsIs: false,
  lowest: undefined,
  highest: undefined,
  stringSets: [],
  stringsMin: 2,
  stringsMax: 4,
  lowestFret: undefined,
  highestFret: undefined,
  capo: undefined,
  rootless: undefined,
  openStrings: true,
  keepTop: false,
  liked: [],
  never: [],
  locked: new Set(),
};

/** The wishes by name, as they are named when they can't hold together. */
export type WishName = keyof LaneWishes;

/** All of them, in the order in which they are told. */
export const wishNames: readonly WishName[] = [
  ...(["leaveAsIs", "lowest", "highest", "stringSets", "stringsMin", "stringsMax"] as const),
  ...(["lowestFret", "highestFret", "capo", "rootless", "openStrings", "keepTop"] as const),
  ...(["liked", "never", "locked"] as const),
];
