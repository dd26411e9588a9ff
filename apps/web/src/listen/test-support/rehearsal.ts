/** A conductor with a player that keeps what it is told, and the demo tune to play. */
import type { Board } from "@halflap/board/board";
import { fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import type { PlayEvent } from "@halflap/sound/play-event";
import { usualSwing } from "@halflap/timeline/swing";
import { Conductor, marginSeconds } from "../conductor.ts";
import type { Plan } from "../play-clock.ts";
import type { PlayerOrder, Report, Wishes } from "../player-messages.ts";

const documents = emptyDocuments();
fillDocuments(documents, demoSolution());
/** The demo tune. */
export const board = makeReader(documents)();
/** Its bars in chart order. */
export const bars = board.sections.flatMap((section) => section.bars);
/** The bar at a place in chart order, from 0. */
export const barAt = (index: number) => {
  const bar = bars[index];
  if (!bar) throw new Error(`no bar ${index}`);
  return bar.id;
};
/** Samples a second. */
export const rate = 48_000;
/** Samples between two words of the player. */
export const block = 1024;
/** Samples from an order to the first it may change. */
export const margin = Math.round(marginSeconds * rate);
/** From a request to the first sample it may change: one word to prepare it, one to take it up. */
export const lead = 2 * block + margin;
/** As written, not counted in. */
export const plain: Wishes = {
  tempoFactor: 1,
  countsIn: false,
  loop: undefined,
  swing: usualSwing,
};

/** An event with its sample. */
export type Due = {
  readonly sample: number;
  readonly generation: number;
  readonly event: PlayEvent;
};

/** A player that keeps what it is told, as the real one does: by sample and generation. */
export function rehearse(wishes: Wishes = plain, first: Board = board) {
  let due: Due[] = [];
  let sample = 0;
  const reports: Report[] = [];
  const late: Due[] = [];
  const follow = (order: PlayerOrder) => {
    if (order.kind === "replace") {
      due = due.filter((each) => each.sample < order.from || each.generation >= order.generation);
    } else if (order.kind === "stop") {
      due = due.filter((each) => each.sample < sample);
    } else if (order.kind === "events") {
      const { origin, generation } = order;
      for (const event of order.events) {
        const start = origin + Math.round(event.start * rate);
        const next = { sample: start, generation, event };
        if (start < sample) late.push(next);
        due.push(next);
      }
    }
  };
  const conductor = new Conductor(rate, follow, (report) => reports.push(report));
  conductor.ask({ kind: "board", fields: first });
  conductor.ask({ kind: "wishes", wishes });
  return {
    conductor,
    reports,
    late,
    /** All that was or will be played, by time. */
    due: () => [...due].sort((a, b) => a.sample - b.sample),
    now: () => sample,
    plan: (): Plan => {
      const plan = reports
        .flatMap((report) => (report.kind === "plan" ? [report.plan] : []))
        .at(-1);
      if (plan === undefined) throw new Error("no plan");
      return plan;
    },
    run: (seconds: number) => {
      for (const end = sample + seconds * rate; sample < end; ) {
        sample += block;
        conductor.hear(sample);
      }
    },
  };
}
