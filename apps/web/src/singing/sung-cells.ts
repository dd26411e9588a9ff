/** Half beats of a section as cells that are sung or not, and what a change of them rewrites. */
import type { Bar, BarId } from "@halflap/board/board";
import { phraseId } from "@halflap/board/ids";
import { sungNotesMax } from "@halflap/board/limits";
import type { Phrase } from "@halflap/board/singing";
import { type Ticks, ticks } from "@halflap/theory/units";

/** A stretch of a section, in ticks from its start. */
export type Stretch = { readonly start: number; readonly end: number };

/** One half beat of a bar. */
export type Cell = Stretch & {
  readonly bar: Bar;
  /** From 1. */
  readonly beat: number;
  readonly isSecondHalf: boolean;
  /** Sung throughout, in part, or not at all. */
  readonly sung: "all" | "part" | "none";
};

/** Where each bar of a section starts, in ticks. */
export function startsOf(bars: readonly Bar[]): ReadonlyMap<BarId, number> {
  let start = 0;
  return new Map(
    bars.map((bar) => {
      const here = start;
      start += bar.length;
      return [bar.id, here] as const;
    }),
  );
}

/** The phrases that stand in these bars, with their stretches, by start. */
export function placedPhrases(bars: readonly Bar[], phrases: readonly Phrase[]) {
  const starts = startsOf(bars);
  return phrases
    .flatMap((phrase) => {
      const from = starts.get(phrase.bar);
      if (from === undefined) return [];
      const start = from + phrase.start;
      return [{ phrase, start, end: start + phrase.length }];
    })
    .sort((a, b) => a.start - b.start);
}

/** The half beats of a section, bar by bar; the last of a bar may be shorter. */
export function cellsOf(
  bars: readonly Bar[],
  phrases: readonly Phrase[],
  beat: Ticks,
): readonly (readonly Cell[])[] {
  const starts = startsOf(bars);
  const placed = placedPhrases(bars, phrases);
  const half = beat / 2;
  return bars.map((bar) =>
    Array.from({ length: Math.ceil(bar.length / half) }, (_, index): Cell => {
      const from = starts.get(bar.id) ?? 0;
      const start = from + index * half;
      const end = Math.min(from + bar.length, start + half);
      const covered = placed.reduce(
        (sum, each) => sum + Math.max(0, Math.min(end, each.end) - Math.max(start, each.start)),
        0,
      );
      return {
        bar,
        start,
        end,
        beat: Math.floor(index / 2) + 1,
        isSecondHalf: index % 2 === 1,
        sung: covered === 0 ? "none" : covered >= end - start ? "all" : "part",
      };
    }),
  );
}

/** What is written and what is taken away. */
export type PhraseChange = {
  readonly put: readonly Phrase[];
  readonly remove: readonly Phrase["id"][];
};

/**
 * The change that makes a stretch sung, or not. What touches a sung stretch becomes one phrase with
 * it, with the melodies of all; what stays of a phrase that is cut keeps its notes. The first part
 * keeps the id.
 */
export function changeOf(
  bars: readonly Bar[],
  phrases: readonly Phrase[],
  stretch: Stretch,
  isSung: boolean,
  makeId: () => string,
): PhraseChange {
  const placed = placedPhrases(bars, phrases);
  return isSung ? joined(bars, placed, stretch, makeId) : cut(bars, placed, stretch, makeId);
}

type Placed = ReturnType<typeof placedPhrases>[number];

function joined(
  bars: readonly Bar[],
  placed: readonly Placed[],
  { start, end }: Stretch,
  makeId: () => string,
): PhraseChange {
  const touching = placed.filter((each) => each.start <= end && each.end >= start);
  const whole = {
    start: Math.min(start, ...touching.map((each) => each.start)),
    end: Math.max(end, ...touching.map((each) => each.end)),
  };
  const [first, ...others] = touching;
  if (first?.start === whole.start && first.end === whole.end && others.length === 0) return none;
  const id = first?.phrase.id ?? phraseId(makeId());
  return {
    put: phrasesAt(bars, whole, id, touching),
    remove: others.map(({ phrase }) => phrase.id),
  };
}

function cut(
  bars: readonly Bar[],
  placed: readonly Placed[],
  taken: Stretch,
  makeId: () => string,
): PhraseChange {
  const changes = placed
    .filter((each) => each.start < taken.end && each.end > taken.start)
    .map((each): PhraseChange => {
      const { id } = each.phrase;
      const left = [
        { start: each.start, end: Math.min(each.end, taken.start) },
        { start: Math.max(each.start, taken.end), end: each.end },
      ].filter((part) => part.end > part.start);
      const put = left.flatMap((part, index) =>
        phrasesAt(bars, part, index === 0 ? id : phraseId(makeId()), [each]),
      );
      return { put, remove: left.length === 0 ? [id] : [] };
    });
  return {
    put: changes.flatMap(({ put }) => put),
    remove: changes.flatMap(({ remove }) => remove),
  };
}

const none: PhraseChange = { put: [], remove: [] };

/** The phrase of a stretch, with what is sung in it of others; none where no bar is. */
function phrasesAt(
  bars: readonly Bar[],
  stretch: Stretch,
  id: Phrase["id"],
  others: readonly Placed[],
): readonly Phrase[] {
  const starts = startsOf(bars);
  const bar = bars.filter((each) => (starts.get(each.id) ?? 0) <= stretch.start).at(-1);
  if (bar === undefined) return [];
  const start = ticks(stretch.start - (starts.get(bar.id) ?? 0));
  const length = ticks(stretch.end - stretch.start);
  return [{ id, bar: bar.id, start, length, melody: melodyIn(stretch, others) }];
}

/** The notes that lie in a stretch, one after another; of two at once the first counts. */
function melodyIn(stretch: Stretch, placed: readonly Placed[]): Phrase["melody"] {
  let free = stretch.start;
  return placed
    .flatMap(({ phrase, start }) => phrase.melody.map((note) => ({ note, at: start + note.start })))
    .sort((a, b) => a.at - b.at)
    .filter(({ note, at }) => {
      if (at < free || at + note.length > stretch.end) return false;
      free = at + note.length;
      return true;
    })
    .map(({ note, at }) => ({ ...note, start: ticks(at - stretch.start) }))
    .slice(0, sungNotesMax);
}
