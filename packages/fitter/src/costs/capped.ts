/** Sums of costs as the solver takes them: held below what it reads as "never". */
import { never } from "../solver/lattice.ts";
import type { CausedSteps } from "./weights.ts";

/** The highest cost that is not "never". */
const costMax = never - 1;

/** A table of sums, each held at the highest cost. */
export function cappedTable(sums: Int32Array): Uint16Array {
  const table = new Uint16Array(sums.length);
  for (let place = 0; place < sums.length; place++) {
    table[place] = Math.min(costMax, sums[place] ?? 0);
  }
  return table;
}

/** Writes sums into a table from a place on, each held at the highest cost. */
export function setCapped(table: Uint16Array, start: number, sums: Int32Array): void {
  for (let place = 0; place < sums.length; place++) {
    table[start + place] = Math.min(costMax, sums[place] ?? 0);
  }
}

/** A table with more for each of its rows and columns; the same table where there is none. */
export function withMore(
  table: Uint16Array,
  rows: readonly number[],
  columns: readonly number[],
): Uint16Array {
  if (rows.every((more) => more === 0) && columns.every((more) => more === 0)) return table;
  const width = Math.max(1, columns.length);
  const sums = new Uint16Array(table.length);
  for (let place = 0, row = 0; place < sums.length; row++) {
    const own = rows[row] ?? 0;
    for (let column = 0; column < width; column++, place++) {
      sums[place] = Math.min(costMax, (table[place] ?? 0) + own + (columns[column] ?? 0));
    }
  }
  return sums;
}

/** The parts of one such sum, cut where it is held. */
export function cappedParts(parts: readonly CausedSteps[]): readonly CausedSteps[] {
  let room = costMax;
  return parts.map(({ cause, steps }) => {
    const counted = Math.min(room, steps);
    room -= counted;
    return { cause, steps: counted };
  });
}
