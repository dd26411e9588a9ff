/** Writing the order of play: the smallest change that turns one form into another. */
import { assert } from "@halflap/theory/units";
import type * as Y from "yjs";
import type { FormEntry, FormEntryId, SectionId } from "../board.ts";
import { readChartState } from "../chart-state.ts";
import { fieldOf, isWhole } from "../decode.ts";
import { derivedEntry, firstFormEntry, isStoredId } from "../ids.ts";
import type { ChartLayout } from "../layout.ts";
import { formEntriesMax, timesMax } from "../limits.ts";
import { keeping, knownFields } from "../newer-fields.ts";
import { editChart } from "./stored.ts";

/** An entry as it is written; with an id it is that one again, whatever is said of it now. */
export type Played = {
  readonly id?: FormEntryId;
  readonly section: SectionId;
  readonly times: number;
};

type FormChange = {
  /** No form was written before: what was said of the sections in turn goes over to it. */
  readonly isFirst: boolean;
  /** In the order of play; those that stay are not written again. */
  readonly entries: readonly (Played & { readonly stays?: FormEntryId })[];
};

/** The order of play. Entries that stay are not touched, so that two may write at once. */
export function setForm(
  doc: Y.Doc,
  written: { readonly form: readonly Played[]; readonly makeId: () => string },
): void {
  assert(written.form.length <= formEntriesMax, "a form of bounded length");
  for (const { times } of written.form) assert(isWhole(times, 1, timesMax), "1 time or more");
  const change = formChange(readChartState(doc).form, written.form);
  editChart(doc, (chart) => writeForm(chart, change, written.makeId));
}

/** What two forms have in common, at both ends first, and what is written between. */
function formChange(old: readonly FormEntry[], wanted: readonly Played[]): FormChange {
  const shorter = Math.min(old.length, wanted.length);
  const named = new Set(wanted.map(({ id }) => id));
  const isSame = (entry: FormEntry | undefined, next: Played | undefined) =>
    entry?.section === next?.section &&
    entry?.times === next?.times &&
    (next?.id === undefined ? !named.has(entry?.id) : next.id === entry?.id);
  let head = 0;
  while (head < shorter && isSame(old[head], wanted[head])) head += 1;
  let tail = 0;
  while (tail < shorter - head && isSame(old.at(-1 - tail), wanted.at(-1 - tail))) tail += 1;
  let open = old.slice(head, old.length - tail);
  const between = wanted.slice(head, wanted.length - tail).map((next) => {
    const place = open.findIndex((entry) => isSame(entry, next));
    const stays = open[place]?.id;
    if (place >= 0) open = open.slice(place + 1);
    return stays === undefined ? next : { ...next, stays };
  });
  const staying = (entry: FormEntry) => ({ ...entry, stays: entry.id });
  return {
    isFirst: old.length === 0,
    entries: [
      ...old.slice(0, head).map(staying),
      ...between,
      ...old.slice(old.length - tail).map(staying),
    ],
  };
}

/** Writes a change into the stored form: what stays is not touched. */
function writeForm(
  { form, singers }: Pick<ChartLayout, "form" | "singers">,
  { isFirst, entries }: FormChange,
  makeId: () => string,
): void {
  const before = form.toArray();
  const idOf = (entry: unknown) => fieldOf(entry, "id");
  const stays = new Set<unknown>(entries.map((entry) => entry.stays));
  const gone = before.flatMap((entry, place) => (stays.has(idOf(entry)) ? [] : [place]));
  for (const place of gone.reverse()) form.delete(place);
  let place = 0;
  const firstId = firstIds();
  for (const { id: known, section, times, stays } of entries) {
    if (stays !== undefined) {
      place = form.toArray().findIndex((entry) => idOf(entry) === stays) + 1;
      continue;
    }
    const made = isFirst ? firstId(section) : undefined;
    const id = isStoredId(known) ? known : (made ?? makeId());
    const stood = before.find((entry) => idOf(entry) === id);
    form.insert(place, [keeping(stood, { id, section, times }, knownFields.form)]);
    place += 1;
    if (isFirst) moveSingers(singers, section, id);
  }
}

/** Two first forms written at once name alike what they both play, so that it stands once. */
function firstIds(): (section: SectionId) => FormEntryId | undefined {
  const times = new Map<SectionId, number>();
  return (section) => {
    const time = (times.get(section) ?? 0) + 1;
    times.set(section, time);
    return firstFormEntry(section, time);
  };
}

/** Whoever sings a section while no form was written sings the first entry that plays it. */
function moveSingers(singers: ChartLayout["singers"], section: SectionId, entry: string): void {
  const derived = derivedEntry(section);
  const rounds = singers.get(derived);
  if (rounds === undefined) return;
  singers.set(entry, rounds);
  singers.delete(derived);
}
