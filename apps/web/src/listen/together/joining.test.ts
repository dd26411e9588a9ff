/** What is played together lies where the shared anchor says, whenever a browser comes to it. */
import { editedBoard } from "@halflap/board/edited-board";
import { expect, test } from "vitest";
import { momentAt } from "../play-clock.ts";
import {
  barAt,
  bars,
  block,
  board,
  type Due,
  lead,
  plain,
  rate,
  rehearse,
} from "../test-support/rehearsal.ts";
import type { Meeting } from "./meeting.ts";

const beat = (60 * rate) / board.tempo;
const meeting: Meeting = {
  tick: 0,
  sample: 2 * rate + 0.3,
  counted: 0,
  tempoFactor: 1,
  loop: undefined,
};

/** The anchor, the bar and the event are rounded to whole samples, each on its own. */
const rounding = 1.5;

const clicks = (due: readonly Due[]) => due.filter(({ event }) => event.kind === "click");
/** How far each click lies from the shared beat, in samples. */
const off = (due: readonly Due[], { sample }: Meeting, step = beat) =>
  clicks(due).map((click) => {
    const beats = (click.sample - sample) / step;
    return Math.abs(beats - Math.round(beats)) * step;
  });
const worst = (values: readonly number[]) => Math.max(...values);

test("it begins at the moment that is named, not before", () => {
  const band = rehearse();
  band.conductor.ask({ kind: "meet", meeting });
  band.run(8);
  expect(band.due()[0]?.sample).toBe(2 * rate);
  expect(worst(off(band.due(), meeting))).toBeLessThanOrEqual(rounding);
  expect(band.late).toEqual([]);
});

test("it is counted in: the clicks end at the moment that is named", () => {
  const band = rehearse();
  const counted = { ...meeting, counted: 1, sample: 4 * rate };
  band.conductor.ask({ kind: "meet", meeting: counted });
  band.run(6);
  const counts = band.due().filter(({ event }) => event.part === "count-in");
  expect(counts).toHaveLength(4);
  expect(counts[0]?.sample).toBeCloseTo(4 * rate - 4 * beat, -1);
  expect(worst(off(counts, counted))).toBeLessThanOrEqual(rounding);
});

test("who comes late falls in where the others are", () => {
  const band = rehearse();
  band.run(10);
  band.conductor.ask({ kind: "meet", meeting });
  band.run(4);
  expect(band.due().every(({ sample }) => sample >= 10 * rate)).toBe(true);
  expect(clicks(band.due()).length).toBeGreaterThan(4);
  expect(worst(off(band.due(), meeting))).toBeLessThanOrEqual(rounding);
  const at = band.now();
  const ticks = ((at - meeting.sample) / beat) * 48;
  const moment = momentAt(band.plan(), at);
  expect(moment?.index).toBe(Math.floor(ticks / 192));
  expect(band.late).toEqual([]);
});

test("who comes after many rounds falls into the right one", () => {
  const loop = { kind: "bars", from: barAt(4), to: barAt(6) } as const;
  const round: Meeting = { ...meeting, tick: 4 * 192, sample: -1_000.25 * 12 * beat, loop };
  const band = rehearse();
  band.conductor.ask({ kind: "meet", meeting: round });
  band.run(20);
  expect(worst(off(band.due(), round))).toBeLessThanOrEqual(rounding);
  const firsts = band.due().filter(({ event }) => event.kind === "click" && event.isFirst);
  expect(firsts.length).toBeGreaterThan(5);
  expect(momentAt(band.plan(), band.now())?.index).toBeGreaterThanOrEqual(4);
});

test("who comes when it is over hears nothing, and is told", () => {
  const band = rehearse();
  band.conductor.ask({ kind: "meet", meeting: { ...meeting, sample: -600 * rate } });
  band.run(1);
  expect(band.due()).toEqual([]);
  expect(band.reports.at(-1)).toEqual({ kind: "stopped", why: "end" });
});

test.each([150, -150])("%i samples are put right at a bar line, once each", (shift) => {
  const band = rehearse();
  band.conductor.ask({ kind: "meet", meeting });
  band.run(5.4);
  const moved = { ...meeting, sample: meeting.sample + shift };
  const before = band.now();
  band.conductor.ask({ kind: "meet", meeting: moved });
  band.run(6);
  const all = clicks(band.due());
  // The bar that sounded is played to its end as it was.
  const line = 2 * rate + 8 * beat;
  expect(before).toBeLessThan(line);
  const early = all.filter(({ sample }) => sample < line - 200);
  const later = all.filter(({ sample }) => sample >= line - 200);
  expect(worst(off(early, meeting))).toBeLessThanOrEqual(rounding);
  expect(worst(off(later, moved))).toBeLessThanOrEqual(rounding);
  expect(early.length + later.length).toBe(new Set(all.map(({ sample }) => sample)).size);
  const steps = all.slice(1).map(({ sample }, index) => sample - (all[index]?.sample ?? 0));
  expect(worst(steps.map((step) => Math.abs(step - beat)))).toBeLessThanOrEqual(151);
  expect(band.late).toEqual([]);
});

test("a large difference is put right at once", () => {
  const band = rehearse();
  band.conductor.ask({ kind: "meet", meeting });
  band.run(5.4);
  const cut = band.now() + lead;
  const moved = { ...meeting, sample: meeting.sample - 1.4 * beat };
  band.conductor.ask({ kind: "meet", meeting: moved });
  band.run(4);
  const later = band.due().filter(({ sample }) => sample >= cut);
  expect(worst(off(later, moved))).toBeLessThanOrEqual(rounding);
  expect(band.late).toEqual([]);
});

test("another tempo that is told for a bar line leaves the bar before it alone", () => {
  const band = rehearse();
  band.conductor.ask({ kind: "meet", meeting });
  band.run(4.2);
  const known = clicks(band.due()).map(({ sample }) => sample);
  const line = 2 * rate + 0.3 + 8 * beat;
  const slower = { ...meeting, tick: 2 * 192, sample: line, tempoFactor: 0.5 };
  band.conductor.ask({ kind: "meet", meeting: slower });
  band.run(8);
  const all = clicks(band.due());
  const before = all.filter(({ sample }) => sample < line - 100).map(({ sample }) => sample);
  expect(before.slice(0, known.length)).toEqual(known.filter((sample) => sample < line - 100));
  expect(before).toHaveLength(8);
  const later = all.filter(({ sample }) => sample >= line - 100);
  expect(later.length).toBeGreaterThan(2);
  expect(worst(off(later, slower, 2 * beat))).toBeLessThanOrEqual(rounding);
});

test("a grip that changes is heard at once, and moves no beat", () => {
  const band = rehearse();
  band.conductor.ask({ kind: "meet", meeting });
  band.run(5);
  const cut = band.now() + lead;
  const rests = bars.map(({ id }) => ({ kind: "lay-out", bar: id, rest: true }) as const);
  band.conductor.ask({ kind: "board", fields: editedBoard(board, "upper", rests) });
  band.run(5);
  const upper = band.due().filter(({ event }) => event.part === "upper");
  expect(upper.filter(({ sample }) => sample >= cut)).toEqual([]);
  expect(worst(off(band.due(), meeting))).toBeLessThanOrEqual(rounding);
});

test("bars that go away under it leave the sounding bar alone, until the next word", () => {
  const band = rehearse();
  band.conductor.ask({ kind: "meet", meeting });
  band.run(16);
  const at = band.now() + lead;
  const before = momentAt(band.plan(), at);
  const [intro, ...others] = board.sections;
  if (!intro) throw new Error("no intro");
  const shorter = { ...board, sections: [{ ...intro, bars: intro.bars.slice(1) }, ...others] };
  band.conductor.ask({ kind: "board", fields: shorter });
  band.run(0.3);
  const after = momentAt(band.plan(), at);
  expect(after?.index).toBe((before?.index ?? 0) - 1);
  band.conductor.ask({ kind: "board", fields: { ...shorter, title: "Another" } });
  band.run(0.3);
  expect(momentAt(band.plan(), at)?.index ?? after?.index).toBe(after?.index);
  expect(worst(off(band.due(), meeting))).toBeLessThanOrEqual(rounding);
  // The next word: bar 6 of what was, told for its own time.
  const bar = Math.floor((band.now() + rate - meeting.sample) / (4 * beat)) + 1;
  const told = { ...meeting, tick: (bar - 1) * 192, sample: meeting.sample + bar * 4 * beat };
  band.conductor.ask({ kind: "meet", meeting: told });
  band.run(6);
  expect(worst(off(band.due(), told))).toBeLessThanOrEqual(rounding);
});

test("the person's own tempo and loop wait while it is played together", () => {
  const band = rehearse();
  band.conductor.ask({ kind: "meet", meeting });
  band.run(4);
  band.conductor.ask({ kind: "wishes", wishes: { ...plain, tempoFactor: 0.5 } });
  band.run(4);
  expect(worst(off(band.due(), meeting))).toBeLessThanOrEqual(rounding);
  band.conductor.ask({ kind: "play", bar: barAt(0) });
  const from = band.now() + block;
  band.run(6);
  const alone = clicks(band.due()).filter(({ sample }) => sample >= from);
  const [first, second] = alone;
  expect((second?.sample ?? 0) - (first?.sample ?? 0)).toBeCloseTo(2 * beat, -1);
});
