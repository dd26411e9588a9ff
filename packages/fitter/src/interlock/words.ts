/** How a bandmate would name a pattern, and say what it makes with the other lane. */
import { nameMax } from "@halflap/board/limits";
import { counted, listed, sentence } from "@halflap/checker/words";
import { type Ticks, ticks, ticksPerQuarter } from "@halflap/theory/units";
import { type Ground, isWithin } from "./ground.ts";
import type { Measures } from "./measures.ts";
import { mostlyStruck } from "./rhythms.ts";
import type { Dress } from "./strokes.ts";

/** A pattern as it is said of. */
export type Said = {
  /** Where it strikes in its bar, ascending; never empty. */
  readonly places: readonly Ticks[];
  readonly dress: Dress;
  readonly measures: Measures;
};

/** "Off-beats", "Chopped on two and four", "On 1, 2&, 4": a name for the library. */
export function nameOf({ places, dress }: Said, ground: Ground): string {
  const plain = shapeOf(places, ground);
  const name = dress === "chopped" ? `Chopped ${plain}` : plain;
  return sentence(name).slice(0, nameMax);
}

/**
 * "Off-beats between Ada's quarters: nothing together, every eighth filled."; without the name
 * where that is only a list of places.
 */
export function wordsOf(said: Said, ground: Ground, other: string): string {
  const { measures, dress } = said;
  const name = nameOf(said, ground);
  const beside = `${besideWords(measures)} ${theirs(ground, other)}`;
  const what = /\d/.test(name) ? sentence(beside) : `${name} ${beside}`;
  const lifted = dress === "back-beat" ? ", leaning on the back-beat" : "";
  const sung = ground.bars.some((bar) => bar.sung.length > 0);
  const facts = [togetherWords(measures), filledWords(measures, ground)];
  return `${what}${lifted}: ${[...facts, ...(sung ? ["easy to sing over"] : [])].join(", ")}.`;
}

/** A rhythm by its usual name, else by where it strikes, or does not if that is shorter. */
function shapeOf(places: readonly Ticks[], ground: Ground): string {
  const { beat, cycle } = ground;
  const beats = cycle / beat;
  const isOnly = (fits: (at: number) => boolean) => places.every(fits);
  if (places.length === 1 && places[0] === 0) return "once a bar";
  if (isOnly((at) => at % beat === 0)) {
    if (places.length === beats) return beat === ticksPerQuarter ? "quarters" : "every beat";
    return `on ${listed(places.map((at) => counted(at / beat + 1)))}`;
  }
  const isHalved = (at: number) => !ground.isInThrees && at % beat === beat / 2;
  if (isOnly(isHalved) && places.length === beats) return "off-beats";
  const grid = gridOf(places, ground);
  if (grid === undefined) return `on ${counts(places, beat)}`;
  const all = Array.from({ length: cycle / grid.step }, (_, index) => ticks(index * grid.step));
  const holes = all.filter((at) => !places.includes(at));
  if (holes.length === 0) return `all ${grid.name}`;
  const isFull = holes.length <= 2 && places.length > 4;
  return isFull ? `${grid.name} without ${counts(holes, beat)}` : `on ${counts(places, beat)}`;
}

/** The coarsest grid of which the places are a part. */
function gridOf(places: readonly Ticks[], { cycle }: Ground) {
  return [
    { step: 24, name: "eighths" },
    { step: 16, name: "triplets" },
    { step: 12, name: "sixteenths" },
  ].find(({ step }) => cycle % step === 0 && places.every((at) => at % step === 0));
}

/** "1, 2&, 4a": counted aloud, thirds of a beat as fractions. */
function counts(places: readonly Ticks[], beat: Ticks): string {
  return places
    .map((at) => `${Math.floor(at / beat) + 1}${partWord((at % beat) / beat)}`)
    .join(", ");
}

function partWord(part: number): string {
  const near = parts.find(([share]) => Math.abs(share - part) < 0.01);
  return near === undefined ? `+${part.toFixed(2)}` : near[1];
}

const parts: readonly (readonly [number, string])[] = [
  [0, ""],
  [1 / 4, "e"],
  [1 / 2, "&"],
  [3 / 4, "a"],
  [1 / 3, "⅓"],
  [2 / 3, "⅔"],
  [1 / 6, "⅙"],
  [5 / 6, "⅚"],
];

function besideWords({ shared, doubled }: Measures): string {
  if (shared === 0) return "between";
  return doubled <= 1 / 2 ? "around" : "with";
}

/** "Ada's quarters", "Ada's held chords", "Ada's strokes", "Ada's fills". */
function theirs(ground: Ground, other: string): string {
  const struck = [...mostlyStruck(ground)].sort((a, b) => a - b);
  if (!ground.isOtherStrummed) return `${other}'s held chords`;
  const isSilent = ground.bars.every((bar) => bar.other.length === 0);
  if (isSilent) return `${other}'s ${isFilling(ground) ? "fills" : "rests"}`;
  const shape = struck.length === 0 ? "" : shapeOf(struck, ground).replace(/^all /, "");
  return `${other}'s ${/^[a-z-]+s$/.test(shape) ? shape : "strokes"}`;
}

function isFilling({ bars }: Ground): boolean {
  return bars.some(({ otherFills, filled }) => filled.some((at) => isWithin(otherFills, at)));
}

function togetherWords({ shared }: Measures): string {
  if (shared === 0) return "nothing together";
  const every = Math.round(1 / shared);
  return every <= 1 ? "nearly all together" : `one stroke in ${counted(every)} together`;
}

function filledWords({ covered }: Measures, { cycle }: Ground): string {
  const eighths = Math.ceil(cycle / (ticksPerQuarter / 2));
  const filled = Math.round(covered * eighths);
  if (filled === eighths) {
    return covered > 0.999 ? "every eighth filled" : "nearly every eighth filled";
  }
  return `${counted(filled)} of ${counted(eighths)} eighths filled`;
}
