/** The smallest change that turns one form into another. */
import type { FormEntry, SectionId } from "../board.ts";
import { fieldOf } from "../decode.ts";
import { derivedEntry } from "../ids.ts";
import type { ChartLayout } from "../layout.ts";

export type Played = { readonly section: SectionId; readonly times: number };

/** `head` and `tail` are left as they are; what stood between them gives way to `middle`. */
export type FormChange = {
  /** No form was written before: what was said of the sections in turn goes over to it. */
  readonly isFirst: boolean;
  readonly head: readonly FormEntry[];
  readonly tail: readonly FormEntry[];
  readonly middle: readonly Played[];
};

/** What two forms have in common at both ends, and what is written between. */
export function formChange(old: readonly FormEntry[], wanted: readonly Played[]): FormChange {
  const shorter = Math.min(old.length, wanted.length);
  let head = 0;
  while (head < shorter && same(old[head], wanted[head])) head += 1;
  let tail = 0;
  while (tail < shorter - head && same(old.at(-1 - tail), wanted.at(-1 - tail))) tail += 1;
  return {
    isFirst: old.length === 0,
    head: old.slice(0, head),
    tail: old.slice(old.length - tail),
    middle: wanted.slice(head, wanted.length - tail),
  };
}

/** Writes a change into the stored form: what stays is not touched. */
export function writeForm(
  { form, singers }: Pick<ChartLayout, "form" | "singers">,
  { isFirst, head, tail, middle }: FormChange,
  makeId: () => string,
): void {
  const stays = new Set<unknown>([...head, ...tail].map(({ id }) => id));
  const ids = () => form.toArray().map((entry) => fieldOf(entry, "id"));
  const gone = ids().flatMap((id, place) => (stays.has(id) ? [] : [place]));
  for (const place of gone.reverse()) form.delete(place);
  const place = ids().indexOf(head.at(-1)?.id) + 1;
  const fresh = middle.map(({ section, times }) => ({ id: makeId(), section, times }));
  if (fresh.length > 0) form.insert(place, fresh);
  if (isFirst) for (const { id, section } of fresh) moveSingers(singers, section, id);
}

/** Whoever sings a section while no form was written sings the first entry that plays it. */
function moveSingers(singers: ChartLayout["singers"], section: SectionId, entry: string): void {
  const derived = derivedEntry(section);
  const rounds = singers.get(derived);
  if (rounds === undefined) return;
  singers.set(entry, rounds);
  singers.delete(derived);
}

function same(a: Played | undefined, b: Played | undefined): boolean {
  return a?.section === b?.section && a?.times === b?.times;
}
