/** What lies between every grip of one list and every grip of another: worked out once for both. */
import { travelOf } from "@halflap/checker/hand-travel";
import { semitonesAVoice } from "@halflap/checker/jumpy-linking";
import { exceeds, type Limits } from "@halflap/checker/thresholds";
import type { Setup } from "@halflap/theory/tuning";
import type { Millimetres } from "@halflap/theory/units";
import type { HeldGrip, HeldGrips } from "./held-grip.ts";
import { kindsOf } from "./kinds.ts";
import { motionTotal } from "./motion-total.ts";
import { makeShelf } from "./shelf.ts";

/** Many grips sound alike, and many lie alike to the hand: each kind of way is worked out once. */
export type WayTable = {
  readonly from: HeldGrips;
  readonly to: HeldGrips;
  readonly voices: VoiceWays;
  readonly hands: HandWays;
};

/** Which kinds of grips there are at both ends; a way is row * width + column. */
type Ends = {
  /** By grip left, and by grip entered. */
  readonly rows: Uint16Array;
  readonly columns: Uint16Array;
  readonly width: number;
};

/** The ways between different sets of pitches. */
export type VoiceWays = Ends & {
  /** Semitones of all voices, and of the top voice alone. */
  readonly motion: Uint16Array;
  readonly top: Uint8Array;
  /** 1 where it is a jump by R17's measure. */
  readonly jumps: Uint8Array;
};

/** The ways between different places of the hand. */
export type HandWays = Ends & {
  /** Which of the lengths the hand goes; 0 = it need not travel. */
  readonly travels: Uint16Array;
  /** Different ways of the hand; the first is none. */
  readonly lengths: readonly (Millimetres | undefined)[];
};

/** How alike two grips are: not, the same one, or the hand slides along with its fingers as are. */
export const likenesses = { none: 0, same: 1, slid: 2 } as const;

const tables = makeShelf<WayTable>(128);
const limitNames = new WeakMap<Limits, string>();

/** The ways from every grip of a list to every grip of another; remembered unless it is one. */
export function wayTable(from: HeldGrips, to: HeldGrips, limits: Limits): WayTable {
  if (from.grips.length * to.grips.length === 1) return tableOf(from, to, limits);
  return tables(`${from.id} ${to.id} ${nameOf(limits)}`, () => tableOf(from, to, limits));
}

/** How alike a grip is to one before it, of `likenesses`. */
export function likenessOf(one: HeldGrip, other: HeldGrip): number {
  if (one.id === other.id) return likenesses.same;
  const slides = one.shape !== undefined && one.shape === other.shape;
  return slides ? likenesses.slid : likenesses.none;
}

/** Which of the lengths the hand goes between two grips, by their numbers in the lists. */
export function travelAt({ hands }: WayTable, row: number, column: number): number {
  const { rows, columns, width, travels } = hands;
  return travels[(rows[row] ?? 0) * width + (columns[column] ?? 0)] ?? 0;
}

function nameOf(limits: Limits): string {
  const named = limitNames.get(limits) ?? JSON.stringify(limits);
  limitNames.set(limits, named);
  return named;
}

function tableOf(from: HeldGrips, to: HeldGrips, limits: Limits): WayTable {
  return { from, to, voices: voiceWays(from, to, limits), hands: handWays(from, to, limits) };
}

function voiceWays(from: HeldGrips, to: HeldGrips, limits: Limits): VoiceWays {
  const [left, entered] = [kindsOf(from.grips, voicingOf), kindsOf(to.grips, voicingOf)];
  const width = entered.first.length;
  const size = left.first.length * width;
  const [motion, top] = [new Uint16Array(size), new Uint8Array(size)];
  const jumps = new Uint8Array(size);
  let way = 0;
  for (const one of left.first) {
    for (const other of entered.first) {
      const total = motionTotal(one.pitches, other.pitches);
      motion[way] = total;
      top[way] = Math.abs(one.highest - other.highest);
      jumps[way] = isJump(one, other, total, limits) ? 1 : 0;
      way++;
    }
  }
  return { rows: left.kinds, columns: entered.kinds, width, motion, top, jumps };
}

function voicingOf({ voicing }: HeldGrip): number {
  return voicing;
}

function positionOf({ position }: HeldGrip): number {
  return position;
}

function isJump(one: HeldGrip, other: HeldGrip, total: number, limits: Limits): boolean {
  if (one.strings === other.strings) return exceeds(total / other.strings, limits.jump);
  return exceeds(semitonesAVoice(one.pitches, other.pitches), limits.jump);
}

function handWays(from: HeldGrips, to: HeldGrips, limits: Limits): HandWays {
  const [left, entered] = [kindsOf(from.grips, positionOf), kindsOf(to.grips, positionOf)];
  const width = entered.first.length;
  const travels = new Uint16Array(left.first.length * width);
  const lengths: (Millimetres | undefined)[] = [undefined];
  const lengthOf = lengthsIn(from.setup, limits);
  let way = 0;
  for (const one of left.first) {
    for (const other of entered.first) {
      const length = lengthOf(one, other);
      travels[way] = length === undefined ? 0 : lengths.push(length) - 1;
      way++;
    }
  }
  return { rows: left.kinds, columns: entered.kinds, width, travels, lengths };
}

type LengthOf = (one: HeldGrip, other: HeldGrip) => Millimetres | undefined;

const lengthsBySetup = new WeakMap<Setup, WeakMap<Limits, LengthOf>>();

/** How far the hand goes on a guitar, remembered by where it lies. */
function lengthsIn(setup: Setup, limits: Limits): LengthOf {
  const byLimits = lengthsBySetup.get(setup) ?? new WeakMap<Limits, LengthOf>();
  lengthsBySetup.set(setup, byLimits);
  const lengthOf = byLimits.get(limits) ?? rememberedLengths(setup, limits);
  byLimits.set(limits, lengthOf);
  return lengthOf;
}

function rememberedLengths(setup: Setup, limits: Limits): LengthOf {
  const known = new Map<number, Map<number, { readonly length: Millimetres | undefined }>>();
  return (one, other) => {
    const row = known.get(one.position) ?? new Map();
    known.set(one.position, row);
    const found = row.get(other.position) ?? {
      length: travelOf(holdOf(one), holdOf(other), setup, limits),
    };
    row.set(other.position, found);
    return found.length;
  };
}

function holdOf({ notes, stopped }: HeldGrip): Parameters<typeof travelOf>[0] {
  return { kind: "grip", notes, stopped, slides: false };
}
