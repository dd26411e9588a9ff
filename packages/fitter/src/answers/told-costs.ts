/** Costs as they are told: in semitones, by cause, and where a tune is hardest. */
import type { Bar, SlotId } from "@halflap/board/board";
import { pretty } from "@halflap/theory/display";
import type { Answer, CauseCost, Costs } from "../answer.ts";
import type { PlacedSteps, Tune } from "../costs/tune-costs.ts";
import { type CauseName, causeNames } from "../costs/weights.ts";
import { stepsPerSemitone } from "../solver/lattice.ts";

/** What parts come to by cause, the dearest first. */
export function costsOf(parts: readonly PlacedSteps[]): Costs {
  const causes = causesOf(parts);
  const steps = parts.reduce((sum, part) => sum + part.steps, 0);
  return { total: steps / stepsPerSemitone, causes };
}

/** The causes of some parts with what they come to, the largest first; nothing is left out. */
export function causesOf(parts: readonly PlacedSteps[]): readonly CauseCost[] {
  const byCause = new Map<CauseName, number>();
  for (const { cause, steps } of parts) byCause.set(cause, (byCause.get(cause) ?? 0) + steps);
  return causeNames
    .flatMap((cause): CauseCost[] => {
      const steps = byCause.get(cause) ?? 0;
      return steps === 0 ? [] : [{ cause, cost: steps / stepsPerSemitone }];
    })
    .sort((one, other) => Math.abs(other.cost) - Math.abs(one.cost));
}

/** What makes a bar hard, as a bandmate says it. */
const hardWords: Readonly<Record<CauseName, string>> = {
  motion: "the voices move most there",
  "hand shift": "the hand has to travel",
  comfort: "the grips are hard to hold",
  "same register": "you two come near each other",
  doubling: "something is in both parts",
  "missing note": "few strings sound, or a note is missing",
  rub: "notes rub",
  "low and muddy": "it lies low",
  colour: "the grips colour the chord",
  "move with no time": "the hand has little time",
  "octaves together": "you two run in octaves",
  "under the voice": "somebody sings over it",
  "not what was liked": "no grip that you like fits",
};

/** The dearest bar, the first of equals; the first bar where nothing costs anything. */
export function hardestIn(
  tune: Tune,
  parts: readonly PlacedSteps[],
  bars: ReadonlyMap<SlotId, Bar>,
): Answer["hardest"] | undefined {
  const byBar = new Map<Bar, PlacedSteps[]>();
  for (const { slot } of tune.places) {
    const bar = bars.get(slot);
    if (bar !== undefined && !byBar.has(bar)) byBar.set(bar, []);
  }
  for (const part of parts) {
    const slot = tune.places[part.place]?.slot;
    const bar = slot && bars.get(slot);
    if (bar !== undefined) byBar.get(bar)?.push(part);
  }
  let hardest: { readonly bar: Bar; readonly costs: Costs } | undefined;
  for (const [bar, own] of byBar) {
    const costs = costsOf(own);
    if (hardest === undefined || costs.total > hardest.costs.total) hardest = { bar, costs };
  }
  if (hardest === undefined) return undefined;
  const { bar, costs } = hardest;
  return { bar: bar.id, cost: costs.total, words: wordsFor(bar, costs) };
}

function wordsFor({ number, slots }: Bar, { causes }: Costs): string {
  const chords = slots.map(({ text }) => pretty(text)).join(" ");
  const [first] = causes;
  const why = first === undefined ? "nothing is hard in it" : hardWords[first.cause];
  return `Bar ${number} (${chords}): ${why}.`;
}
