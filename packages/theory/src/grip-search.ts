/** Walks the strings from low to high and keeps what comes through the sieve. */
import { type Grip, gripOf } from "./grip.ts";
import { faultOf, type Sieve } from "./grip-faults.ts";
import { fretPosition, type Places } from "./hand.ts";
import {
  openPitch,
  type Setup,
  type StringNumber,
  stringCount,
  stringNumbers,
  typedFret,
} from "./tuning.ts";
import { fret } from "./units.ts";

/** Where the walk stands: what is chosen so far on the strings below. */
type Walk = {
  readonly places: (number | undefined)[];
  readonly sounding: number;
  /** The lowest and highest stopped place; lowest is infinite while nothing is stopped. */
  readonly lowest: number;
  readonly highest: number;
  readonly hasOpen: boolean;
};

/**
 * Every grip that the sieve lets through: low positions first, then fewer strings, then fret by
 * fret.
 */
export function gripsThrough(sieve: Sieve): readonly Grip[] {
  const { setup } = sieve;
  const choices = stringNumbers.map((string) => placesOn(string, sieve));
  const lengths = Array.from({ length: setup.lastFret + 1 }, (_, place) =>
    fretPosition(setup, place),
  );
  const found: Places[] = [];

  const step = (string: number, walk: Walk): void => {
    if (walk.sounding + stringCount - string < sieve.sounding.min) return;
    if (string === stringCount) {
      if (faultOf(walk.places, sieve) === undefined) found.push([...walk.places]);
      return;
    }
    walk.places[string] = undefined;
    const hasEnded = !sieve.innerMutes && walk.sounding > 0;
    step(hasEnded ? stringCount : string + 1, hasEnded ? silenced(walk, string) : walk);
    if (walk.sounding === sieve.sounding.max) return;
    for (const place of choices[string] ?? []) {
      const isStopped = place > setup.capo;
      const lowest = isStopped ? Math.min(walk.lowest, place) : walk.lowest;
      const highest = isStopped ? Math.max(walk.highest, place) : walk.highest;
      if (highest > lowest && lengthBetween(lengths, lowest, highest) > sieve.spanMax) continue;
      const hasOpen = walk.hasOpen || !isStopped;
      if (hasOpen && highest > sieve.openHighest) continue;
      walk.places[string] = place;
      step(string + 1, {
        places: walk.places,
        sounding: walk.sounding + 1,
        lowest,
        highest,
        hasOpen,
      });
    }
    walk.places[string] = undefined;
  };

  const start = { sounding: 0, lowest: Number.POSITIVE_INFINITY, highest: 0, hasOpen: false };
  step(0, { places: new Array(stringCount).fill(undefined), ...start });
  return inOrder(found, setup);
}

/** Without inner mutes the first silent string above a sounding one ends the grip. */
function silenced(walk: Walk, from: number): Walk {
  walk.places.fill(undefined, from);
  return walk;
}

/**
 * The places of a string that sound a tone the chord allows, open string first, then up the neck.
 */
function placesOn(string: StringNumber, sieve: Sieve): readonly number[] {
  if (!sieve.strings.includes(string)) return [];
  const allowed = sieve.demands.tones | sieve.demands.tensions;
  const open = openPitch(sieve.setup.tuning, string);
  const places = sieve.openStrings ? [sieve.setup.capo as number] : [];
  for (let place = sieve.lowest; place <= sieve.highest; place++) places.push(place);
  return places.filter((place) => (allowed & (1 << ((open + place) % 12))) !== 0);
}

function lengthBetween(lengths: readonly number[], from: number, to: number): number {
  return (lengths[to] ?? 0) - (lengths[from] ?? 0);
}

function inOrder(found: readonly Places[], setup: Setup): readonly Grip[] {
  const keyed = found.map((places) => {
    const sounding = places.filter((place) => place !== undefined);
    const stopped = sounding.filter((place) => place > setup.capo);
    return { places, position: Math.min(setup.lastFret, ...stopped), count: sounding.length };
  });
  keyed.sort(
    (one, other) =>
      one.position - other.position ||
      one.count - other.count ||
      comparePlaces(one.places, other.places),
  );
  return keyed.map(({ places }) => gripAt(places, setup));
}

/** String by string from the lowest; a sounding string comes before a silent one. */
function comparePlaces(one: Places, other: Places): number {
  for (let string = 0; string < stringCount; string++) {
    const mine = one[string] ?? Number.MAX_SAFE_INTEGER;
    const theirs = other[string] ?? Number.MAX_SAFE_INTEGER;
    if (mine !== theirs) return mine - theirs;
  }
  return 0;
}

function gripAt(places: Places, setup: Setup): Grip {
  return gripOf(
    places.map((place) => (place === undefined ? undefined : typedFret(setup, fret(place)))),
  );
}
