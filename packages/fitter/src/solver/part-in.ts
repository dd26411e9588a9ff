/** Whether a lattice is a part of another: the same tables with fewer states in some places. */
import type { Lattice, Link, Place } from "./lattice.ts";
import type { Allowed } from "./limits.ts";

/**
 * By place the states of the whole that those of the part are, in their order; undefined for all
 * of a lane. Undefined altogether where some cost is another, or too much was left out to tell.
 */
export function partIn(whole: Lattice, part: Lattice): readonly Allowed[] | undefined {
  if (!isAlike(whole, part)) return undefined;
  const kept: Allowed[] = [];
  for (const [index, place] of part.places.entries()) {
    const upper = statesIn(whole, part, index, "upper");
    const lower = statesIn(whole, part, index, "lower");
    if (upper === "unknown" || lower === "unknown") return undefined;
    if (!isPlaceIn(whole.places[index], place, { upper, lower })) return undefined;
    kept.push({ upper, lower });
  }
  const isWithin = part.links.every((link, nth) => {
    const own = whole.links[nth];
    return own !== undefined && isLinkIn(whole, own, part, link, kept);
  });
  return isWithin ? kept : undefined;
}

/** The same places and ways, nowhere more states. */
function isAlike(whole: Lattice, part: Lattice): boolean {
  return (
    whole.places.length === part.places.length &&
    whole.links.length === part.links.length &&
    part.places.every((place, index) => {
      const own = whole.places[index];
      return own !== undefined && place.upper <= own.upper && place.lower <= own.lower;
    }) &&
    part.links.every((link, nth) => {
      const own = whole.links[nth];
      return own?.from === link.from && own.to === link.to;
    })
  );
}

type Lane = "upper" | "lower";

/**
 * Which states of a lane were left: told by what they cost beside the other lane, if that has all
 * of its own, and on the ways to neighbours.
 */
function statesIn(
  whole: Lattice,
  part: Lattice,
  index: number,
  lane: Lane,
): readonly number[] | undefined | "unknown" {
  const [own, place] = [whole.places[index], part.places[index]];
  if (own === undefined || place === undefined) return "unknown";
  if (own[lane] === place[lane]) return undefined;
  const other = lane === "upper" ? "lower" : "upper";
  if (own[other] !== place[other]) return "unknown";
  const ways = waysAt(whole, part, index, lane);
  const states: number[] = [];
  let state = 0;
  for (let nth = 0; nth < place[lane]; nth += 1) {
    const isSame = () =>
      samePairs(own, state, place, nth, lane) && ways.every((isSameWay) => isSameWay(state, nth));
    while (state < own[lane] && !isSame()) state += 1;
    if (state === own[lane]) return "unknown";
    states.push(state);
    state += 1;
  }
  return states;
}

function samePairs(own: Place, state: number, place: Place, nth: number, lane: Lane): boolean {
  const count = lane === "upper" ? own.lower : own.upper;
  for (let other = 0; other < count; other += 1) {
    const [at, partAt] =
      lane === "upper"
        ? [state * own.lower + other, nth * place.lower + other]
        : [other * own.lower + state, other * place.lower + nth];
    if (own.pairs[at] !== place.pairs[partAt]) return false;
  }
  return true;
}

/** For each way of the lane to or from a place that lost no state: whether states cost alike. */
function waysAt(whole: Lattice, part: Lattice, index: number, lane: Lane) {
  return part.links.flatMap((link, nth): ((state: number, nth: number) => boolean)[] => {
    const own = whole.links[nth]?.[lane];
    const costs = link[lane];
    if (own === undefined || costs === undefined || link.from === link.to) return [];
    const beyond = link.from === index ? link.to : link.to === index ? link.from : undefined;
    if (beyond === undefined) return [];
    const count = part.places[beyond]?.[lane] ?? 0;
    if (whole.places[beyond]?.[lane] !== count) return [];
    const [width, partWidth] = [whole.places[link.to]?.[lane], part.places[link.to]?.[lane]];
    if (width === undefined || partWidth === undefined) return [];
    const at = (state: number, other: number, columns: number) =>
      link.from === index ? state * columns + other : other * columns + state;
    return [
      (state, kept) => {
        for (let other = 0; other < count; other += 1) {
          if (own[at(state, other, width)] !== costs[at(kept, other, partWidth)]) return false;
        }
        return true;
      },
    ];
  });
}

function isPlaceIn(own: Place | undefined, place: Place, { upper, lower }: Allowed): boolean {
  if (own === undefined) return false;
  const sides = { rows: upper, columns: lower, width: own.lower };
  return isCut(own.pairs, place.pairs, sides, [place.upper, place.lower]);
}

function isLinkIn(
  whole: Lattice,
  own: Link,
  part: Lattice,
  link: Link,
  kept: readonly Allowed[],
): boolean {
  return (["upper", "lower"] as const).every((lane) => {
    const [table, costs] = [own[lane], link[lane]];
    if (table === undefined || costs === undefined) return table === costs;
    const [rows, columns] = [kept[link.from]?.[lane], kept[link.to]?.[lane]];
    const width = whole.places[link.to]?.[lane] ?? 0;
    const [from, to] = [part.places[link.from]?.[lane] ?? 0, part.places[link.to]?.[lane] ?? 0];
    return isCut(table, costs, { rows, columns, width }, [from, to]);
  });
}

type Sides = {
  readonly rows: readonly number[] | undefined;
  readonly columns: readonly number[] | undefined;
  readonly width: number;
};

/** Whether a table holds these rows and columns of another, value for value. */
function isCut(
  whole: Uint16Array,
  part: Uint16Array,
  { rows, columns, width }: Sides,
  [rowCount, columnCount]: readonly [number, number],
): boolean {
  if (whole === part && rows === undefined && columns === undefined) return true;
  let at = 0;
  for (let row = 0; row < rowCount; row += 1) {
    const start = (rows?.[row] ?? row) * width;
    for (let column = 0; column < columnCount; column += 1, at += 1) {
      if (part[at] !== whole[start + (columns?.[column] ?? column)]) return false;
    }
  }
  return true;
}
