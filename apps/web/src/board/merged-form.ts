/** A form that was rewritten while the other player wrote on it too. */
import type { FormEntry, FormEntryId, SectionId } from "@halflap/board/board";
import { formEntriesMax } from "@halflap/board/limits";

/** An entry as it is being written; a new one has no id yet. */
export type WrittenEntry = {
  readonly id?: FormEntryId;
  readonly section: SectionId;
  readonly times: number;
};

type Known = Pick<FormEntry, "id" | "section" | "times">;

/**
 * What I wrote, from the form as I `opened` it, with what changed since: what the other added
 * stands behind what it stands behind `now`, and what they took away is gone. Of bounded length.
 */
export function mergedForm(
  opened: readonly Known[],
  written: readonly WrittenEntry[],
  now: readonly Known[],
): readonly WrittenEntry[] {
  const before = new Set(opened.map(({ id }) => id));
  const still = new Set(now.map(({ id }) => id));
  const merged = written.filter(({ id }) => id === undefined || still.has(id));
  let place = 0;
  for (const entry of now) {
    // Where I took away what stood before it, it stays behind what came before that.
    if (before.has(entry.id)) place = placeAfter(merged, entry.id) ?? place;
    else merged.splice(place++, 0, entry);
  }
  return merged.slice(0, formEntriesMax);
}

function placeAfter(entries: readonly WrittenEntry[], id: FormEntryId): number | undefined {
  const place = entries.findIndex((entry) => entry.id === id);
  return place === -1 ? undefined : place + 1;
}
