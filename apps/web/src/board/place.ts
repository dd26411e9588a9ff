/** A place on the board that the keys can stand on: a bar's chords, or one slot of a lane. */
import type { Bar, BarId, Lane, LaneId, SlotId } from "@halflap/board/board";

export type Place =
  | { readonly kind: "chords"; readonly bar: BarId }
  | { readonly kind: "slot"; readonly lane: LaneId; readonly bar: BarId; readonly slot: SlotId };

export type Direction =
  | "left"
  | "right"
  | "up"
  | "down"
  | "line-start"
  | "line-end"
  | "board-start"
  | "board-end";

/** One line of bars as it is drawn. */
export type BarLine = readonly Bar[];

type Row = "chords" | LaneId;
const rows: readonly Row[] = ["chords", "upper", "lower"];

/** The id that the element of a place carries in the page. */
export function placeId(place: Place): string {
  return place.kind === "chords" ? `chords-${place.bar}` : `${place.lane}-${place.slot}`;
}

/** Whether two places are the same. */
export function samePlace(a: Place | undefined, b: Place | undefined): boolean {
  return a !== undefined && b !== undefined && placeId(a) === placeId(b);
}

/**
 * Where a step from a place leads; undefined at the edge of the board, or when the place is gone.
 */
export function walk(
  lines: readonly BarLine[],
  place: Place,
  direction: Direction,
): Place | undefined {
  const at = locate(lines, place.bar);
  if (!at) return undefined;
  const row: Row = place.kind === "chords" ? "chords" : place.lane;
  switch (direction) {
    case "left":
      return sideways(lines, place, -1);
    case "right":
      return sideways(lines, place, 1);
    case "up":
      return upOrDown(lines, at, place, row, -1);
    case "down":
      return upOrDown(lines, at, place, row, 1);
    case "line-start":
      return firstIn(at.line[0], row);
    case "line-end":
      return lastIn(at.line.at(-1), row);
    case "board-start":
      return firstIn(lines.flat()[0], row);
    case "board-end":
      return lastIn(lines.flat().at(-1), row);
  }
}

/** Whether a place still is on the board. */
export function holds(lines: readonly BarLine[], place: Place): boolean {
  const bar = lines.flat().find((each) => each.id === place.bar);
  if (!bar) return false;
  return place.kind === "chords" || bar.slots.some((slot) => slot.id === place.slot);
}

/** The first slot of a lane, or the first bar's chords where the lane has no slot. */
export function firstPlace(lines: readonly BarLine[], lane: LaneId): Place | undefined {
  const bars = lines.flat();
  return firstIn(bars.find((bar) => bar.slots.length > 0) ?? bars[0], lane);
}

/** The slots that a lane walks through, with their bars, in chart order. */
export function slotPlaces(bars: readonly Bar[], lane: LaneId): readonly Place[] {
  return bars.flatMap((bar) =>
    bar.slots.map((slot): Place => ({ kind: "slot", lane, bar: bar.id, slot: slot.id })),
  );
}

/** The first slot in which a lane plays and has no grip yet; else its first slot. */
export function firstToFill(
  bars: readonly Bar[],
  lane: Pick<Lane, "id" | "grips" | "layOuts">,
): Place | undefined {
  const places = slotPlaces(bars, lane.id);
  const isToFill = (place: Place) =>
    place.kind === "slot" && !lane.grips.has(place.slot) && !lane.layOuts.has(place.bar);
  return places.find(isToFill) ?? places[0];
}

type Spot = { readonly line: BarLine; readonly lineIndex: number; readonly column: number };

function locate(lines: readonly BarLine[], bar: BarId): Spot | undefined {
  for (const [lineIndex, line] of lines.entries()) {
    const column = line.findIndex((each) => each.id === bar);
    if (column >= 0) return { line, lineIndex, column };
  }
  return undefined;
}

function sideways(lines: readonly BarLine[], place: Place, step: 1 | -1): Place | undefined {
  const bars = lines.flat();
  const places =
    place.kind === "chords"
      ? bars.map((bar): Place => ({ kind: "chords", bar: bar.id }))
      : slotPlaces(bars, place.lane);
  const index = places.findIndex((each) => samePlace(each, place));
  return index < 0 ? undefined : places[index + step];
}

function upOrDown(
  lines: readonly BarLine[],
  at: Spot,
  place: Place,
  row: Row,
  step: 1 | -1,
): Place | undefined {
  const nextRow = rows[rows.indexOf(row) + step];
  const start = startOf(at.line[at.column], place);
  if (nextRow !== undefined) return nearest(at.line[at.column], nextRow, start);
  const along = step > 0 ? lines.slice(at.lineIndex + 1) : lines.slice(0, at.lineIndex).reverse();
  const line = along.find((each) => each.length > 0);
  const bar = line?.[Math.min(at.column, line.length - 1)];
  return nearest(bar, step > 0 ? "chords" : "lower", start);
}

function startOf(bar: Bar | undefined, place: Place): number {
  if (place.kind === "chords") return 0;
  return bar?.slots.find((slot) => slot.id === place.slot)?.start ?? 0;
}

/** A bar without slots is still met on its chords. */
function nearest(bar: Bar | undefined, row: Row, start: number): Place | undefined {
  if (!bar) return undefined;
  const slot = [...bar.slots].reverse().find((each) => each.start <= start) ?? bar.slots[0];
  if (row === "chords" || !slot) return { kind: "chords", bar: bar.id };
  return { kind: "slot", lane: row, bar: bar.id, slot: slot.id };
}

function firstIn(bar: Bar | undefined, row: Row): Place | undefined {
  return nearest(bar, row, 0);
}

function lastIn(bar: Bar | undefined, row: Row): Place | undefined {
  return nearest(bar, row, Number.POSITIVE_INFINITY);
}
