/** What a copy says and no board would: reading leaves it out, so the copy is refused. */
import type { BoardCopy, SectionCopy } from "./copy-shape.ts";
import type { Fault } from "./decode.ts";
import { fillId } from "./ids.ts";
import { readFill } from "./playing-state.ts";
import { readPhrase } from "./singing-state.ts";
import type { VoiceCopy } from "./song-shape.ts";

/** The first part that reading would leave out, if there is one. */
export function droppedPart(copy: BoardCopy): Fault | undefined {
  const { sections, silences, voices, phrases, proposals, lanes } = copy;
  return (
    firstOf(sections.entries(), ([i, section]) => circle(sections, section, `sections[${i}]`)) ??
    firstOf(silences.entries(), ([i, { bars }]) => nothing(bars, `silences[${i}].bars`)) ??
    firstOf(Object.entries(voices), ([id, voice]) => noRange(voice, `voices.${id}`)) ??
    firstOf(Object.entries(phrases), ([id, phrase]) =>
      droppedNote(phrase.melody, readPhrase(id, phrase)?.melody, `phrases.${id}.melody`),
    ) ??
    firstOf(
      Object.entries(proposals),
      ([id, { bars, edits }]) =>
        nothing(bars, `proposals.${id}.bars`) ?? nothing(edits, `proposals.${id}.edits`),
    ) ??
    firstOf(Object.entries(lanes), ([lane, { fills }]) =>
      firstOf(Object.entries(fills), ([id, fill]) => {
        const read = readFill(fillId(id), fill);
        return droppedNote(fill.notes, read?.notes, `lanes.${lane}.fills.${id}.notes`);
      }),
    )
  );
}

function firstOf<T>(
  things: Iterable<T>,
  faultOf: (thing: T) => Fault | undefined,
): Fault | undefined {
  for (const thing of things) {
    const fault = faultOf(thing);
    if (fault !== undefined) return fault;
  }
  return undefined;
}

function circle(
  sections: readonly SectionCopy[],
  { id, borrows }: SectionCopy,
  path: string,
): Fault | undefined {
  const sources = new Map(sections.map((each) => [each.id, each.borrows]));
  const seen = new Set<string>();
  let from = borrows;
  while (from !== undefined && from !== id && !seen.has(from)) {
    seen.add(from);
    from = sources.get(from);
  }
  return from === id ? { path: `${path}.borrows`, words: "leads back to the section" } : undefined;
}

function nothing(things: readonly unknown[], path: string): Fault | undefined {
  return things.length > 0 ? undefined : { path, words: "must not be empty" };
}

function noRange({ low, high }: VoiceCopy, path: string): Fault | undefined {
  if (low === undefined && high === undefined) return undefined;
  if (low !== undefined && high !== undefined && low <= high) return undefined;
  return { path, words: "must have low and high, low not above high" };
}

/** The first note that is not read as it is written; in which order they stand is all the same. */
function droppedNote(
  written: readonly object[],
  read: readonly object[] = [],
  path: string,
): Fault | undefined {
  const left = [...read];
  for (const [i, note] of written.entries()) {
    const place = left.findIndex((each) => isSame(note, each));
    if (place < 0) {
      const words = "must lie inside, apart from the others, and be bent only where it is a bend";
      return { path: `${path}[${i}]`, words };
    }
    left.splice(place, 1);
  }
  return undefined;
}

function isSame(note: object, other: object): boolean {
  return Object.entries(note).every(([name, value]) => Reflect.get(other, name) === value);
}
