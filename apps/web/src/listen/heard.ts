/** What of a plan is heard at a moment: the bar, and the strokes in it. */
import type { BarId, FormEntryId, LaneId, SectionId } from "@halflap/board/board";
import { momentAt, type Plan } from "./play-clock.ts";

/** The bar that sounds, and the last stroke of each lane in it, as parts of the bar. */
export type Heard = {
  readonly bar: BarId;
  readonly section: SectionId;
  readonly entry: FormEntryId;
  readonly round: number;
  readonly index: number;
  readonly strokes: Readonly<Record<LaneId, number | undefined>>;
};

/** What sounds at a sample of a plan. */
export function heardAt(plan: Plan, sample: number): Heard | undefined {
  const moment = momentAt(plan, sample);
  const here = moment && plan.bars[moment.index];
  if (!moment || !here) return undefined;
  const { bar, section, entry, round, length } = here;
  const last = (lane: LaneId) => {
    const stroke = here.strokes[lane].filter((at) => at <= moment.into).at(-1);
    return stroke === undefined ? undefined : stroke / length;
  };
  const strokes = { upper: last("upper"), lower: last("lower") };
  return { bar, section, entry, round, index: moment.index, strokes };
}

/** Whether nothing on the board has to move. */
export function isSameHeard(a: Heard | undefined, b: Heard | undefined): boolean {
  if (a === undefined || b === undefined) return a === b;
  const sameStrokes = a.strokes.upper === b.strokes.upper && a.strokes.lower === b.strokes.lower;
  return a.index === b.index && a.bar === b.bar && sameStrokes;
}
