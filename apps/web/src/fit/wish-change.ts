/** Changes to wishes that leave them whole: bounds the right way round, strings as typed. */
import type { LaneWishes } from "@halflap/board/wishes";
import { type Grip, sameGrip } from "@halflap/theory/grip";
import { type StringNumber, stringNumbers } from "@halflap/theory/tuning";

const bounds = {
  lowest: { other: "highest", isLow: true },
  highest: { other: "lowest", isLow: false },
  stringsMin: { other: "stringsMax", isLow: true },
  stringsMax: { other: "stringsMin", isLow: false },
  lowestFret: { other: "highestFret", isLow: true },
  highestFret: { other: "lowestFret", isLow: false },
} as const;

export type Bound = keyof typeof bounds;

/** Sets of three and four neighbouring strings, as grips mostly lie: common practice, no source. */
export const neighbouringSets: readonly (readonly StringNumber[])[] = [3, 4].flatMap((count) =>
  stringNumbers.slice(0, 7 - count).map((_, start) => stringNumbers.slice(start, start + count)),
);

/** Sets a bound; the other one moves along where it would come to lie on the wrong side. */
export function boundChange<B extends Bound>(
  wishes: LaneWishes,
  bound: B,
  value: LaneWishes[B],
): Partial<LaneWishes> {
  const { other, isLow } = bounds[bound];
  const far = wishes[other];
  const isWrong = value !== undefined && far !== undefined && (isLow ? value > far : value < far);
  return isWrong ? { [bound]: value, [other]: value } : { [bound]: value };
}

/** The strings of a typed set, low string first, however they are separated; else undefined. */
export function typedStringSet(text: string): readonly StringNumber[] | undefined {
  const digits = text.trim().split(/[\s,;/-]+|(?<=\d)(?=\d)/);
  const strings = digits.flatMap(
    (digit) => stringNumbers.find((each) => String(each) === digit) ?? [],
  );
  const isWhole = strings.length === digits.length && strings.length >= 2;
  const ordered = [...strings].sort((a, b) => b - a);
  return isWhole && new Set(strings).size === strings.length ? ordered : undefined;
}

/** Whether a set is among those wished. */
export function hasSet(sets: LaneWishes["stringSets"], set: readonly StringNumber[]): boolean {
  return sets.some((each) => each.join() === set.join());
}

/** Wishes for a set, or no more; so many strings may then sound. */
export function stringSetChange(
  wishes: LaneWishes,
  set: readonly StringNumber[],
): Partial<LaneWishes> {
  const { stringSets, stringsMin, stringsMax } = wishes;
  if (hasSet(stringSets, set)) {
    return { stringSets: stringSets.filter((each) => each.join() !== set.join()) };
  }
  return {
    stringSets: [...stringSets, set],
    ...(set.length > stringsMax ? { stringsMax: set.length } : {}),
    ...(set.length < stringsMin ? { stringsMin: set.length } : {}),
  };
}

/** Puts a grip on a list, and takes it off the other; on the list already, it comes off. */
export function gripChange(
  wishes: LaneWishes,
  list: "liked" | "never",
  grip: Grip,
): Partial<LaneWishes> {
  const without = (grips: readonly Grip[]) => grips.filter((each) => !sameGrip(each, grip));
  const isOn = wishes[list].some((each) => sameGrip(each, grip));
  const other = list === "liked" ? "never" : "liked";
  if (isOn) return { [list]: without(wishes[list]) };
  const wasOnOther = wishes[other].some((each) => sameGrip(each, grip));
  return {
    [list]: [...wishes[list], grip],
    ...(wasOnOther ? { [other]: without(wishes[other]) } : {}),
  };
}
