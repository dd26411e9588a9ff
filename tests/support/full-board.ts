/** A board with every slot of both lanes filled, as large as a test or a measurement wants it. */
import type { BarCopy, BoardCopy, LaneCopy } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";

const perSection = 8;

/**
 * `bars` bars in sections of eight, with ids `bar-1`, `bar-2` and slots `bar-1-1`. The verse of the
 * demo tune goes round, so that each slot holds the two grips that fit there.
 */
export function fullBoard(bars: number): BoardCopy {
  const demo = demoSolution();
  const verse = demo.sections.find(({ id }) => id === "verse")?.bars ?? [];
  const made = Array.from({ length: bars }, (_, i) => barAt(i, verse));
  const sections = Array.from({ length: Math.ceil(bars / perSection) }, (_, i) => ({
    id: `section-${i + 1}`,
    name: `Part ${i + 1}`,
    bars: made.slice(i * perSection, (i + 1) * perSection).map(({ bar }) => bar),
  }));
  const lane = (from: LaneCopy): LaneCopy => ({
    ...from,
    grips: Object.fromEntries(
      made.flatMap(({ bar, model }) =>
        bar.slots.map((slot, j) => [slot.id, from.grips[model.slots[j]?.id ?? ""] ?? ""]),
      ),
    ),
    marks: {},
  });
  return {
    ...demo,
    title: `${bars} bars`,
    sections,
    form: [],
    lanes: { upper: lane(demo.lanes.upper), lower: lane(demo.lanes.lower) },
  };
}

function barAt(i: number, verse: readonly BarCopy[]): { bar: BarCopy; model: BarCopy } {
  const model = verse[i % verse.length];
  if (model === undefined) throw new Error("the demo tune has a verse");
  const id = `bar-${i + 1}`;
  const slots = model.slots.map((slot, j) => ({ ...slot, id: `${id}-${j + 1}` }));
  return { bar: { id, slots }, model };
}
