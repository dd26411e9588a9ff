/** A board with every slot of both lanes filled, as large as a test or a measurement wants it. */
import type { BarCopy, BoardCopy, LaneCopy } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";

/**
 * "usual": what a band plays. "dense": as much as happens at all, sixteenths in both lanes
 * throughout and a fill in every fourth bar of each.
 */
export type Fullness = "usual" | "dense";

const perSection = 8;
const beat = 48;

/** A bar of the board, and the bar of the demo tune that it is made after. */
type Made = { readonly bar: BarCopy; readonly model: BarCopy };

/**
 * `bars` bars in sections of eight, with ids `bar-1`, `bar-2` and slots `bar-1-1`. The verse of the
 * demo tune goes round, with the grips, strums, fills and sung phrases that fit there; everything
 * hangs on bars, slots and sections of this board.
 */
export function fullBoard(bars: number, fullness: Fullness = "usual"): BoardCopy {
  const demo = demoSolution();
  const verse = demo.sections.find(({ id }) => id === "verse")?.bars ?? [];
  const made = Array.from({ length: bars }, (_, i) => barAt(i, verse));
  const sections = Array.from({ length: Math.ceil(bars / perSection) }, (_, i) => ({
    id: `section-${i + 1}`,
    name: `Part ${i + 1}`,
    bars: made.slice(i * perSection, (i + 1) * perSection).map(({ bar }) => bar),
  }));
  const usual = {
    upper: usualLane(demo.lanes.upper, made),
    lower: usualLane(demo.lanes.lower, made),
  };
  const [singer] = Object.keys(demo.voices);
  const sung = singer === undefined ? [] : sections.map(({ id }) => [`~${id}`, [singer]] as const);
  return {
    ...demo,
    title: `${bars} bars`,
    sections,
    form: [],
    phrases: onBars(demo.phrases, made, "sung"),
    gapOwners: onBars(demo.gapOwners, made, "gap"),
    singers: Object.fromEntries(sung),
    ...{ aims: {}, barRounds: {}, proposals: {} },
    lanes:
      fullness === "usual"
        ? usual
        : { upper: denseLane(usual.upper, made, 1), lower: denseLane(usual.lower, made, 3) },
  };
}

function barAt(i: number, verse: readonly BarCopy[]): Made {
  const model = verse[i % verse.length];
  if (model === undefined) throw new Error("the demo tune has a verse");
  const id = `bar-${i + 1}`;
  const slots = model.slots.map((slot, j) => ({ ...slot, id: `${id}-${j + 1}` }));
  return { bar: { id, slots }, model };
}

/** What the lane plays in the demo's verse, bar for bar. */
function usualLane(from: LaneCopy, made: readonly Made[]): LaneCopy {
  const strum = from.strumSections.verse;
  return {
    ...from,
    ...{ strumSections: {}, strumBars: {}, strumPasses: {}, restingPasses: [] },
    ...{ dynamics: {}, palmMutes: [], letRings: [], layOuts: [], marks: {} },
    grips: onSlots(from.grips, made),
    chosenFor: onSlots(from.chosenFor, made),
    ...(strum === undefined ? {} : { strumLane: strum }),
    fills: onBars(from.fills, made, "fill"),
  };
}

/** Sixteenths throughout, and a fill of eighths in that bar of every four. */
function denseLane(lane: LaneCopy, made: readonly Made[], place: number): LaneCopy {
  const notes = [0, 1, 2, 3].map((index) => ({
    ...{ start: (index * beat) / 2, length: beat / 2, string: 2, fret: 8 + index },
    ...({ way: "pluck", bend: 0, letRing: false } as const),
  }));
  const fill = { start: 2 * beat, length: 2 * beat, kind: "fill", together: false, notes } as const;
  const filled = made.filter((_, index) => index % 4 === place);
  const sixteenths = { name: "All", step: beat / 4, feel: "board", palmMute: false } as const;
  return {
    ...lane,
    strums: { all: { ...sixteenths, steps: "DU".repeat(8) } },
    strumLane: "all",
    fills: Object.fromEntries(
      filled.map(({ bar }) => [`fill-${bar.id}`, { ...fill, bar: bar.id }] as const),
    ),
  };
}

/** What stands in the slots of the models, by the slots made after them. */
function onSlots(from: Readonly<Record<string, string>>, made: readonly Made[]) {
  return Object.fromEntries(
    made.flatMap(({ bar, model }) =>
      bar.slots.map((slot, j) => [slot.id, from[model.slots[j]?.id ?? ""] ?? ""] as const),
    ),
  );
}

/** What hangs on the models, hung on the bars made after them. */
function onBars<T extends { readonly bar: string }>(
  from: Readonly<Record<string, T>>,
  made: readonly Made[],
  name: string,
): Readonly<Record<string, T>> {
  const hung = made.flatMap(({ bar, model }) =>
    Object.values(from)
      .filter((thing) => thing.bar === model.id)
      .map((thing, i) => [`${name}-${bar.id}-${i + 1}`, { ...thing, bar: bar.id }] as const),
  );
  return Object.fromEntries(hung);
}
