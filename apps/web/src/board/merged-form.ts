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
 * stands behind what it stands behind `now`, and what they took away is gone. Times that I left as
 * they were, and the order if I left it, are those of `now`. Of bounded length.
 */
export function mergedForm(
  opened: readonly Known[],
  written: readonly WrittenEntry[],
  now: readonly Known[],
): readonly WrittenEntry[] {
  const before = new Map(opened.map((entry) => [entry.id, entry]));
  const still = new Map(now.map((entry) => [entry.id, entry]));
  const kept = written
    .filter(({ id }) => id === undefined || still.has(id))
    .map((entry) => {
      const isMine = entry.id === undefined || before.get(entry.id)?.times !== entry.times;
      return isMine ? entry : { ...entry, times: still.get(entry.id)?.times ?? entry.times };
    });
  const merged = isInOrder(kept, opened) ? inOrderOf(now, kept) : kept;
  let place = 0;
  for (const entry of now) {
    // Where I took away what stood before it, it stays behind what came before that.
    if (before.has(entry.id)) place = placeAfter(merged, entry.id) ?? place;
    else merged.splice(place++, 0, entry);
  }
  return merged.slice(0, formEntriesMax);
}

/** Whether those of the entries that were known stand as they stood. */
function isInOrder(entries: readonly WrittenEntry[], opened: readonly Known[]): boolean {
  const places = entries.flatMap(({ id }) =>
    id === undefined ? [] : [opened.findIndex((entry) => entry.id === id)],
  );
  return places.every((place, i) => i === 0 || place > (places[i - 1] ?? 0));
}

/** The known entries change places among themselves; new ones stay where they are. */
function inOrderOf(now: readonly Known[], entries: readonly WrittenEntry[]): WrittenEntry[] {
  const turn = now.flatMap(({ id }) => entries.filter((entry) => entry.id === id));
  return entries.map((entry) => (entry.id === undefined ? entry : (turn.shift() ?? entry)));
}

function placeAfter(entries: readonly WrittenEntry[], id: FormEntryId): number | undefined {
  const place = entries.findIndex((entry) => entry.id === id);
  return place === -1 ? undefined : place + 1;
}
