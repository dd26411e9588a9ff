/**
 * What is said of a section's pass, under the two names that it has: `~verse` while no form is
 * written, and `verse-1` in the first form, whose writer may know nothing of it or not be allowed
 * to write it (repair B30).
 */
import type { FormEntry, FormEntryId } from "./board.ts";
import { derivedEntry, firstFormEntry, formEntryId, isContentId, sectionId } from "./ids.ts";
import type { LaneStore, Table } from "./lane-store.ts";

type Passes = Pick<LaneStore, "restingPasses" | "strumPasses">;

type Entries = readonly Pick<FormEntry, "id" | "section">[];

/** The tables as they count with a form: what was said of a section goes over to its entry. */
export function withFirstPasses<T extends Passes>(store: T, form: Entries): T {
  return {
    ...store,
    restingPasses: inherited(store.restingPasses, form),
    strumPasses: inherited(store.strumPasses, form),
  };
}

/** One table by form entry, as it counts with a form. */
export function inherited(table: Table, form: Entries): Table {
  const handed = form.flatMap(({ id, section }): [string, string][] => {
    const derived = derivedEntry(section);
    return id === firstFormEntry(section, 1) && table.has(derived) ? [[derived, id]] : [];
  });
  if (handed.length === 0) return table;
  const counted = new Map([...table.keys()].map((key) => [key, table.get(key)]));
  for (const [derived, entry] of handed) {
    if (!counted.has(entry)) counted.set(entry, table.get(derived));
    counted.delete(derived);
  }
  return counted;
}

/** The other name of an entry, if it has one: what is said under one takes the other's place. */
export function otherName(entry: FormEntryId): FormEntryId | undefined {
  if (entry.startsWith("~")) return firstFormEntry(sectionId(entry.slice(1)), 1);
  const derived = entry.endsWith("-1") ? `~${entry.slice(0, -2)}` : "";
  return isContentId(derived) ? formEntryId(derived) : undefined;
}
