/** A lane's wishes as plain values, for documents and copies: their shape, their way out and in. */
import { printGrip } from "@halflap/theory/grip";
import { stringCount } from "@halflap/theory/tuning";
import { fretMax, midiNoteMax } from "@halflap/theory/units";
import {
  type Decode,
  faulty,
  listOf,
  matching,
  maybe,
  objectOf,
  truth,
  wholeIn,
} from "./decode.ts";
import type { LaneStore, Table } from "./lane-store.ts";
import * as limits from "./limits.ts";
import { contentId, gripText } from "./playing-shape.ts";
import { type LaneWishes, usualWishes, type WishName } from "./wishes.ts";
import { stringSetOf } from "./wishes-state.ts";

/** Only what differs from the usual wishes. */
export type WishesCopy = {
  readonly leaveAsIs?: boolean;
  readonly lowest?: number; // MIDI notes
  readonly highest?: number;
  readonly stringSets?: readonly string[]; // "4-3-2"
  readonly stringsMin?: number;
  readonly stringsMax?: number;
  readonly lowestFret?: number;
  readonly highestFret?: number;
  readonly capo?: number;
  readonly rootless?: boolean;
  readonly openStrings?: boolean;
  readonly keepTop?: boolean;
  readonly liked?: readonly string[]; // grips
  readonly never?: readonly string[];
  readonly locked?: readonly string[]; // slot ids
};

type WishTables = Pick<LaneStore, "wishes" | "likedGrips" | "neverGrips" | "lockedSlots">;

/** The table of each wish that is a set of things, so that each of them can be added by itself. */
const tables = { liked: "likedGrips", never: "neverGrips", locked: "lockedSlots" } as const;

/** The wishes as plain values, without those that are the usual ones. */
export function wishesCopyOf(wishes: LaneWishes): WishesCopy {
  const { stringSets, liked, never, locked, ...single } = wishes;
  const usual: Readonly<Record<string, unknown>> = usualWishes;
  const asked = Object.entries(single).filter(([name, value]) => value !== usual[name]);
  return {
    ...Object.fromEntries(asked),
    ...(stringSets.length === 0 ? {} : { stringSets: stringSets.map((set) => set.join("-")) }),
    ...(liked.length === 0 ? {} : { liked: liked.map(printGrip) }),
    ...(never.length === 0 ? {} : { never: never.map(printGrip) }),
    ...(locked.size === 0 ? {} : { locked: [...locked] }),
  };
}

/** Makes the named wishes say what the copy says of them; what it leaves out is usual. */
export function writeWishes(store: WishTables, names: readonly WishName[], copy: WishesCopy): void {
  for (const name of names) {
    if (name === "liked" || name === "never" || name === "locked") {
      writeMembers(store[tables[name]], copy[name] ?? []);
    } else {
      const value = copy[name];
      if (value === undefined) store.wishes.delete(name);
      else store.wishes.set(name, Array.isArray(value) ? [...value] : value);
    }
  }
}

function writeMembers(table: Table, members: readonly string[]): void {
  const wanted = new Set(members);
  for (const key of [...table.keys()]) if (!wanted.has(key)) table.delete(key);
  for (const key of wanted) if (table.get(key) !== true) table.set(key, true);
}

const grips = listOf(gripText, limits.wishedGripsMax);

const fields = objectOf<WishesCopy>({
  leaveAsIs: maybe(truth),
  lowest: maybe(wholeIn(0, midiNoteMax)),
  highest: maybe(wholeIn(0, midiNoteMax)),
  stringSets: maybe(
    listOf(matching(isStringSet, "strings, lowest first: 4-3-2"), limits.stringSetsMax),
  ),
  stringsMin: maybe(wholeIn(1, stringCount)),
  stringsMax: maybe(wholeIn(1, stringCount)),
  lowestFret: maybe(wholeIn(0, fretMax)),
  highestFret: maybe(wholeIn(0, fretMax)),
  capo: maybe(wholeIn(0, limits.capoMax)),
  rootless: maybe(truth),
  openStrings: maybe(truth),
  keepTop: maybe(truth),
  liked: maybe(grips),
  never: maybe(grips),
  locked: maybe(listOf(contentId, limits.laneEntriesMax)),
});

const bounds = [
  ["lowest", "highest"],
  ["stringsMin", "stringsMax"],
  ["lowestFret", "highestFret"],
] as const;

/** The fields of a lane's wishes; no lower bound lies above its upper one. */
export const wishesShape: Decode<WishesCopy> = (value, path) => {
  const copy = fields(value, path);
  if (!copy.ok) return copy;
  for (const [low, high] of bounds) {
    const least = copy.value[low] ?? usualWishes[low];
    const most = copy.value[high] ?? usualWishes[high];
    if (least === undefined || most === undefined || least <= most) continue;
    return faulty(`${path}.${low}`, `must not be above ${high}, ${most}`);
  }
  return copy;
};

function isStringSet(value: unknown): value is string {
  return typeof value === "string" && stringSetOf(value) !== undefined;
}
