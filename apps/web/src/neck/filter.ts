/**
 * What a player asks of the suggested grips, in the words of the panel, and the wishes that it
 * comes to.
 */
import type { StringNumber } from "@halflap/theory/grip";
import { everydayWishes, fullWishes, type Wishes } from "@halflap/theory/neck";
import { type Fret, fret } from "@halflap/theory/units";

/** How many strings sound, as one can choose. */
export const counts = ["small", "two", "three", "four", "full"] as const;
export type Count = (typeof counts)[number];

/** Which strings may sound, as one can choose. */
export const stringChoices = ["any", "low", "middle", "high"] as const;
export type StringChoice = (typeof stringChoices)[number];

/** Which part of the neck, as one can choose. */
export const areas = ["any", "first", "third", "fifth", "eighth", "twelfth"] as const;
export type Area = (typeof areas)[number];

export type Filter = {
  readonly count: Count;
  readonly strings: StringChoice;
  readonly area: Area;
  readonly rootless: boolean;
  readonly openStrings: boolean;
  readonly innerMutes: boolean;
  /** Only grips that stay clear of the other lane. */
  readonly clear: boolean;
};

const sounding: Readonly<Record<Count, { readonly min: number; readonly max: number }>> = {
  small: { min: 3, max: 4 },
  two: { min: 2, max: 2 },
  three: { min: 3, max: 3 },
  four: { min: 4, max: 4 },
  full: { min: 5, max: 6 },
};

const chosenStrings: Readonly<Record<StringChoice, readonly StringNumber[] | undefined>> = {
  any: undefined,
  low: [6, 5, 4, 3],
  middle: [5, 4, 3, 2],
  high: [4, 3, 2, 1],
};

/** Frets from the nut, both included. */
export const areaFrets: Readonly<Record<Exclude<Area, "any">, readonly [number, number]>> = {
  first: [0, 4],
  third: [3, 7],
  fifth: [5, 9],
  eighth: [8, 12],
  twelfth: [12, 17],
};

/** What is asked before anybody asks: small grips anywhere, rootless where somebody plays bass. */
export function everydayFilter(hasBass: boolean): Filter {
  return {
    count: "small",
    strings: "any",
    area: "any",
    rootless: hasBass,
    openStrings: true,
    innerMutes: false,
    clear: false,
  };
}

/** The wishes for the search; five or six strings may mute one inside, which they often need. */
export function wishesOf(filter: Filter, hasBass: boolean, lastFret: Fret): Wishes {
  const area = filter.area === "any" ? undefined : areaFrets[filter.area];
  const strings = chosenStrings[filter.strings];
  const everyday = filter.count === "full" ? fullWishes(hasBass) : everydayWishes(hasBass);
  return {
    ...everyday,
    ...(strings ? { strings } : {}),
    ...(area
      ? {
          lowestFret: fret(Math.min(area[0], lastFret)),
          highestFret: fret(Math.min(area[1], lastFret)),
        }
      : {}),
    sounding: sounding[filter.count],
    rootless: filter.rootless,
    openStrings: filter.openStrings,
    innerMutes: filter.innerMutes || filter.count === "full",
  };
}
