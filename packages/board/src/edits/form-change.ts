/** The smallest change that turns one form into another. */
import type { FormEntry, SectionId } from "../board.ts";

export type Played = { readonly section: SectionId; readonly times: number };

/** `head` and `tail` are left as they are; what stood between them gives way to `middle`. */
export type FormChange = {
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
    head: old.slice(0, head),
    tail: old.slice(old.length - tail),
    middle: wanted.slice(head, wanted.length - tail),
  };
}

function same(a: Played | undefined, b: Played | undefined): boolean {
  return a?.section === b?.section && a?.times === b?.times;
}
