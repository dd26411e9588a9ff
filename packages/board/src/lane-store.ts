/**
 * What a lane is stored in: named tables by id, the maps of a document or plain ones alike, and the
 * order in which they are read.
 */
import type { ChartIds } from "./chart-ids.ts";
import { isContentId } from "./ids.ts";
import { laneEntriesMax } from "./limits.ts";

/** A table by id: a map of a document, or a plain one. */
export type Table = {
  readonly size: number;
  get(key: string): unknown;
  has(key: string): boolean;
  set(key: string, value: unknown): unknown;
  delete(key: string): unknown;
  keys(): IterableIterator<string>;
};

/** The tables of a lane; what each holds stands in layout.ts. */
export type LaneStore = Readonly<
  Record<
    | "meta"
    | "grips"
    | "layOuts"
    | "marks"
    | "chosenFor"
    | "strums"
    | "strumSections"
    | "strumBars"
    | "strumPasses"
    | "fills"
    | "dynamics"
    | "palmMutes"
    | "letRings"
    | "restingPasses"
    | "wishes"
    | "likedGrips"
    | "neverGrips"
    | "lockedSlots",
    Table
  >
>;

/** The tables of a lane with nothing in them. */
export function plainStore(): LaneStore {
  const table = (): Table => new Map<string, unknown>();
  return {
    ...{ meta: table(), grips: table(), layOuts: table(), marks: table(), chosenFor: table() },
    ...{ strums: table(), strumSections: table(), strumBars: table(), strumPasses: table() },
    ...{ fills: table(), dynamics: table(), palmMutes: table(), letRings: table() },
    ...{ restingPasses: table(), wishes: table(), likedGrips: table(), neverGrips: table() },
    lockedSlots: table(),
  };
}

/** B15: entries of the chart come first, in its order; others are kept after them, by id. */
export function keysInOrder(stored: Table, chart: readonly string[]): readonly string[] {
  const standing = chart.filter((key) => stored.has(key));
  if (standing.length === stored.size) return standing;
  const known = new Set(standing);
  const others = [...stored.keys()].filter((key) => !known.has(key) && isContentId(key)).sort();
  return [...standing, ...others].slice(0, laneEntriesMax);
}

/** Orders two ids the same way on every machine. */
export function byId(a: { readonly id: string }, b: { readonly id: string }): number {
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}

/**
 * B15 for what hangs on a bar: by its place in the chart, then by id; what stands nowhere last.
 * B25: what starts beyond the end of its bar waits until there is room for it.
 */
export function inPlaces<T extends { readonly id: string; readonly bar: string }>(
  things: readonly T[],
  { bars, lengths }: Pick<ChartIds, "bars" | "lengths">,
  startOf: (thing: T) => number,
  most: number,
): readonly T[] {
  return placed(things, bars, startOf, most).filter((thing) => !waits(thing, lengths, startOf));
}

/** What `inPlaces` leaves out because it starts beyond the end of its bar, in the same order. */
export function waitingIn<T extends { readonly id: string; readonly bar: string }>(
  things: readonly T[],
  { bars, lengths }: Pick<ChartIds, "bars" | "lengths">,
  startOf: (thing: T) => number,
  most: number,
): readonly T[] {
  if (!things.some((thing) => waits(thing, lengths, startOf))) return [];
  return placed(things, bars, startOf, most).filter((thing) => waits(thing, lengths, startOf));
}

function placed<T extends { readonly id: string; readonly bar: string }>(
  things: readonly T[],
  bars: readonly string[],
  startOf: (thing: T) => number,
  most: number,
): readonly T[] {
  const numbers = new Map(bars.map((bar, number) => [bar, number]));
  const placeOf = (thing: T) => numbers.get(thing.bar) ?? bars.length;
  const inOrder = [...things].sort((a, b) => {
    const apart = placeOf(a) - placeOf(b);
    if (apart !== 0 || placeOf(a) === bars.length) return apart || byId(a, b);
    return startOf(a) - startOf(b) || byId(a, b);
  });
  return inOrder.slice(0, most);
}

/** Whether a thing starts beyond the end of its bar; what hangs on no bar that stands does not. */
function waits<T extends { readonly bar: string }>(
  thing: T,
  lengths: ChartIds["lengths"],
  startOf: (thing: T) => number,
): boolean {
  return startOf(thing) >= (lengths.get(thing.bar) ?? Number.POSITIVE_INFINITY);
}
