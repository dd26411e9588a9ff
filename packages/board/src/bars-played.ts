/** Which bars a form plays, each as often as it comes, and how many it may (repair B32). */
import type { Bar, FormEntry, Section } from "./board.ts";
import { formBarsMax } from "./limits.ts";
import { type Singers, singersOf } from "./singing-state.ts";

type Counted = Pick<FormEntry, "section" | "times">;

/** The bars of a section's round, from 1: an ending is played in its own rounds only. */
export function barsInRound(section: Pick<Section, "bars">, round: number): readonly Bar[] {
  return section.bars.filter((bar) => bar.rounds?.includes(round) ?? true);
}

/** How many bars of a section are played in so many rounds. */
export function barsInRounds(section: Pick<Section, "bars">, rounds: number): number {
  const counts = Array.from({ length: rounds }, (_, i) => barsInRound(section, i + 1).length);
  return counts.reduce((sum, count) => sum + count, 0);
}

/** The bars of all entries together, as if each ending were played in every round. */
export function barsPlayed(entries: readonly Counted[], sections: readonly Section[]): number {
  const count = barCounts(sections);
  return entries.reduce((sum, { section, times }) => sum + (count.get(section) ?? 0) * times, 0);
}

/** The form up to where it is too long: what goes beyond is played less often, or not at all. */
export function fittingForm(
  form: readonly FormEntry[],
  sections: readonly Section[],
  singers: Singers,
): readonly FormEntry[] {
  const count = barCounts(sections);
  let free = formBarsMax;
  for (const [i, entry] of form.entries()) {
    const bars = count.get(entry.section) ?? 0;
    const times = bars === 0 ? entry.times : Math.floor(free / bars);
    if (times < entry.times) {
      const last = { ...entry, times, singers: singersOf(singers, entry.id, times) };
      return [...form.slice(0, i), ...(times > 0 ? [last] : [])];
    }
    free -= bars * entry.times;
  }
  return form;
}

function barCounts(sections: readonly Section[]): ReadonlyMap<Section["id"], number> {
  return new Map(sections.map(({ id, bars }) => [id, bars.length]));
}
