/**
 * Fields that a newer Halflap stored beside those known here: whoever writes the known ones anew
 * leaves the others as they are.
 */
import { fieldOf } from "./decode.ts";
import type { Table } from "./lane-store.ts";

/** What this version knows of a stored value: its fields, and those of the things in its lists. */
export type KnownFields = {
  readonly fields: readonly string[];
  readonly lists?: Readonly<Record<string, readonly string[]>>;
};

const sung = ["start", "length", "pitch"];
const played = ["start", "length", "string", "fret", "way", "bend", "letRing"];

/** By table, for the tables whose values are objects that edits write again. */
export const knownFields = {
  places: { fields: ["bar", "at"] },
  voices: { fields: ["name", "lane", "type", "low", "high"] },
  phrases: { fields: ["bar", "start", "length", "melody"], lists: { melody: sung } },
  form: { fields: ["id", "section", "times"] },
  silences: { fields: ["rule", "bars", "reason"] },
  gapOwners: { fields: ["bar", "at", "owner"] },
  strums: { fields: ["name", "step", "feel", "palmMute", "steps"] },
  fills: {
    fields: ["bar", "start", "length", "kind", "together", "notes"],
    lists: { notes: played },
  },
} as const satisfies Readonly<Record<string, KnownFields>>;

/** Stores a value under a key; what stands there and is not known here goes over to it. */
export function setKeeping(table: Table, key: string, value: object, known: KnownFields): void {
  table.set(key, keeping(table.get(key), value, known));
}

/** What is to be stored instead of a value, with what stands there and is not known here. */
export function keeping<T extends object>(
  stored: unknown,
  next: T,
  { fields, lists = {} }: KnownFields,
): T {
  const kept = { ...unknownOf(stored, fields), ...next };
  const listed = Object.entries(lists).map(([name, parts]) => [
    name,
    keepingIn(fieldOf(stored, name), fieldOf(next, name), parts),
  ]);
  return { ...kept, ...Object.fromEntries(listed) };
}

/** Each thing of the list that says the same as one that was stored keeps what that one had. */
function keepingIn(stored: unknown, next: unknown, fields: readonly string[]): unknown {
  if (!Array.isArray(stored) || !Array.isArray(next)) return next;
  const says = (thing: unknown) => JSON.stringify(fields.map((name) => fieldOf(thing, name)));
  const left = stored.map((thing) => ({ thing, said: says(thing) }));
  return next.map((thing: unknown) => {
    const place = left.findIndex(({ said }) => said === says(thing));
    if (place < 0 || typeof thing !== "object") return thing;
    return { ...unknownOf(left.splice(place, 1)[0]?.thing, fields), ...thing };
  });
}

function unknownOf(value: unknown, fields: readonly string[]): object {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return {};
  return Object.fromEntries(Object.entries(value).filter(([name]) => !fields.includes(name)));
}
