/** Half beats of a section as cells that are sung or not, and what a change of them rewrites. */
import type { Bar, BarId } from "@halflap/board/board";
import { phraseId } from "@halflap/board/ids";
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
 * The change that makes a stretch sung, or not. Phrases that touch become one; what stays of a
 * phrase keeps its id, and its melody where the beginning stays.
 */
export function changeOf(
  bars: readonly Bar[],
  phrases: readonly Phrase[],
  stretch: Stretch,
  isSung: boolean,
  makeId: () => string,
): PhraseChange {
  const placed = placedPhrases(bars, phrases);
  const wanted = isSung ? joined(placed, stretch) : cut(placed, stretch);
  const free = new Set(placed);
  const put: Phrase[] = [];
  for (const each of wanted) {
    const known = placed.find(
      (before) => free.has(before) && before.start < each.end && before.end > each.start,
    );
    if (known !== undefined) free.delete(known);
    if (known?.start === each.start && known.end === each.end) continue;
    const id = known?.phrase.id ?? phraseId(makeId());
    const melody = known?.start === each.start ? known.phrase.melody : [];
    const phrase = phraseAt(bars, each);
    if (phrase === undefined) continue;
    const fits = melody.filter((note) => note.start + note.length <= phrase.length);
    put.push({ ...phrase, id, melody: fits });
  }
  return { put, remove: [...free].map(({ phrase }) => phrase.id) };
}

function phraseAt(bars: readonly Bar[], stretch: Stretch) {
  const starts = startsOf(bars);
  const bar = bars.filter((each) => (starts.get(each.id) ?? 0) <= stretch.start).at(-1);
  if (bar === undefined) return undefined;
  const start = ticks(stretch.start - (starts.get(bar.id) ?? 0));
  return { bar: bar.id, start, length: ticks(stretch.end - stretch.start) };
}

function joined(stretches: readonly Stretch[], added: Stretch): readonly Stretch[] {
  const all = [...stretches, added].sort((a, b) => a.start - b.start);
  const merged: Stretch[] = [];
  for (const each of all) {
    const last = merged.at(-1);
    if (last === undefined || each.start > last.end) merged.push(each);
    else merged[merged.length - 1] = { start: last.start, end: Math.max(last.end, each.end) };
  }
  return merged;
}

function cut(stretches: readonly Stretch[], taken: Stretch): readonly Stretch[] {
  return stretches.flatMap((each) =>
    [
      { start: each.start, end: Math.min(each.end, taken.start) },
      { start: Math.max(each.start, taken.end), end: each.end },
    ].filter((part) => part.end > part.start),
  );
}
