/** What lies between every grip of one list and every grip of another: worked out once for both. */
import { travelBetween } from "@halflap/checker/hand-travel";
import { semitonesAVoice } from "@halflap/checker/jumpy-linking";
import { exceeds, type Limits } from "@halflap/checker/thresholds";
import type { Millimetres } from "@halflap/theory/units";
import type { HeldGrip, HeldGrips } from "./held-grip.ts";
import { motionTotal } from "./motion-total.ts";
import { makeShelf } from "./shelf.ts";

/** Row by row of the grips left; a place is row * columns + column. */
export type WayTable = {
  readonly from: HeldGrips;
  readonly to: HeldGrips;
  readonly columns: number;
  /** Semitones of all voices, and of the top voice alone. */
  readonly motion: Uint16Array;
  readonly top: Uint8Array;
  /** 1 where it is a jump by R17's measure. */
  readonly jumps: Uint8Array;
  /** Which of the lengths the hand goes; 0 = it need not travel. */
  readonly travels: Uint16Array;
  /** Different ways of the hand; the first is none. */
  readonly lengths: readonly (Millimetres | undefined)[];
  /** 1 where it is the same grip, 2 where the hand slides along, its fingers as they are. */
  readonly likeness: Uint8Array;
};

const tables = makeShelf<WayTable>(128);
const limitNames = new WeakMap<Limits, string>();

/** The ways from every grip of a list to every grip of another; remembered unless it is one. */
export function wayTable(from: HeldGrips, to: HeldGrips, limits: Limits): WayTable {
  if (from.grips.length * to.grips.length === 1) return tableOf(from, to, limits);
  const named = limitNames.get(limits) ?? JSON.stringify(limits);
  limitNames.set(limits, named);
  return tables(`${from.id} ${to.id} ${named}`, () => tableOf(from, to, limits));
}

function tableOf(from: HeldGrips, to: HeldGrips, limits: Limits): WayTable {
  const columns = to.grips.length;
  const size = from.grips.length * columns;
  const [motion, top] = [new Uint16Array(size), new Uint8Array(size)];
  const [jumps, likeness] = [new Uint8Array(size), new Uint8Array(size)];
  const { travels, lengths } = travelsBetween(from, to, limits);
  const rows = new Map<number, number>();
  let place = 0;
  for (const one of from.grips) {
    const row = place;
    const known = rows.get(one.voicing);
    rows.set(one.voicing, known ?? row);
    for (const other of to.grips) {
      likeness[place] = likenessOf(one, other);
      if (known === undefined) {
        const total = motionTotal(one.pitches, other.pitches);
        motion[place] = total;
        top[place] = Math.abs(one.highest - other.highest);
        jumps[place] = isJump(one, other, total, limits) ? 1 : 0;
      }
      place++;
    }
    if (known === undefined) continue;
    // The same pitches elsewhere on the neck go the same ways.
    for (const table of [motion, top, jumps]) table.copyWithin(row, known, known + columns);
  }
  return { from, to, columns, motion, top, jumps, travels, lengths, likeness };
}

function likenessOf(one: HeldGrip, other: HeldGrip): number {
  if (one.id === other.id) return 1;
  return one.shape !== undefined && one.shape === other.shape ? 2 : 0;
}

function isJump(one: HeldGrip, other: HeldGrip, total: number, limits: Limits): boolean {
  if (one.strings === other.strings) return exceeds(total / other.strings, limits.jump);
  return exceeds(semitonesAVoice(one.pitches, other.pitches), limits.jump);
}

/** The hand's ways, worked out once for grips that lie alike. */
function travelsBetween(from: HeldGrips, to: HeldGrips, limits: Limits) {
  const lengths: (Millimetres | undefined)[] = [undefined];
  const byPositions = new Map<number, Map<number, number>>();
  const travels = new Uint16Array(from.grips.length * to.grips.length);
  let place = 0;
  for (const one of from.grips) {
    const row = byPositions.get(one.position) ?? new Map<number, number>();
    byPositions.set(one.position, row);
    for (const other of to.grips) {
      let index = row.get(other.position);
      if (index === undefined) {
        const length = travelBetween(one.grip, other.grip, from.setup, limits);
        index = length === undefined ? 0 : lengths.push(length) - 1;
        row.set(other.position, index);
      }
      travels[place] = index;
      place++;
    }
  }
  return { travels, lengths };
}
