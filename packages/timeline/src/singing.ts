/** Sung phrases and the gaps between them, laid over the bars of a passage. */
import type { BarId } from "@halflap/board/board";
import type { GapOwner, Phrase, Voice } from "@halflap/board/singing";
import { type Ticks, ticks } from "@halflap/theory/units";
import type { Gap, PlayedBar, Sung } from "./timeline.ts";

/** A bar and where it starts. */
export type PlacedBar = Pick<PlayedBar, "bar" | "start">;

/** The phrases that stand in these bars, by start, cut at the end of the passage. */
export function sungOf(
  phrases: readonly Phrase[],
  bars: readonly PlacedBar[],
  voice: Voice | undefined,
): readonly Sung[] {
  const starts = startsOf(bars);
  const last = bars.at(-1);
  const whole = last === undefined ? 0 : last.start + last.bar.length;
  return phrases
    .flatMap((phrase): readonly Sung[] => {
      const from = starts.get(phrase.bar);
      if (from === undefined) return [];
      const start = ticks(from + phrase.start);
      const end = ticks(Math.min(whole, start + phrase.length));
      return end > start ? [{ phrase, voice, start, end }] : [];
    })
    .sort((a, b) => a.start - b.start);
}

/** What lies between the phrases; phrases that overlap leave no gap. Nobody sings: no gaps. */
export function gapsOf(
  sung: readonly Sung[],
  whole: Ticks,
  owners: readonly GapOwner[],
  bars: readonly PlacedBar[],
): readonly Gap[] {
  if (sung.length === 0) return [];
  const places = placesOf(owners, bars);
  const gaps: Gap[] = [];
  let free = 0;
  for (const { start, end } of [...sung, { start: whole, end: whole }]) {
    if (start > free) gaps.push(gapOf(ticks(free), start, places));
    free = Math.max(free, end);
  }
  return gaps;
}

type OwnedPlace = { readonly at: number; readonly owner: GapOwner["owner"] };

function gapOf(start: Ticks, end: Ticks, places: readonly OwnedPlace[]): Gap {
  const owner = places.find((place) => place.at >= start && place.at < end)?.owner;
  return { start, end, owner };
}

function placesOf(owners: readonly GapOwner[], bars: readonly PlacedBar[]): readonly OwnedPlace[] {
  const starts = startsOf(bars);
  return owners.flatMap(({ bar, at, owner }) => {
    const from = starts.get(bar);
    return from === undefined ? [] : [{ at: from + at, owner }];
  });
}

function startsOf(bars: readonly PlacedBar[]): ReadonlyMap<BarId, Ticks> {
  return new Map(bars.map(({ bar, start }) => [bar.id, start]));
}
