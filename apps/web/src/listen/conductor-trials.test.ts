/** What is tried, sections on their own, and another swing, as the conductor orders them. */
import type { Board } from "@halflap/board/board";
import { ticks } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { momentAt } from "./play-clock.ts";
import {
  barAt,
  bars,
  board,
  type Due,
  lead,
  plain,
  rate,
  rehearse,
} from "./test-support/rehearsal.ts";
import type { Trial } from "./trial.ts";

test("a change that nobody made is tried once, without counting in, and leaves the board", () => {
  const band = rehearse({ ...plain, countsIn: true });
  const bars = { kind: "once", from: barAt(5), to: barAt(5) } as const;
  const edits = [{ kind: "lay-out", bar: barAt(5), rest: true }] as const;
  const trial: Trial = { bars, lane: "upper", edits: [], slot: undefined, heard: "all" };
  band.conductor.ask({ kind: "try", trial: { ...trial, edits } });
  band.run(6);
  expect(band.reports.at(-1)).toEqual({ kind: "stopped", why: "end" });
  const tried = band.due();
  expect(tried.filter(({ event }) => event.kind === "click")).toHaveLength(4);
  expect(tried.some(({ event }) => event.part === "lower")).toBe(true);
  expect(tried.some(({ event }) => event.part === "upper")).toBe(false);
  expect(tried.some(({ event }) => event.part === "count-in")).toBe(false);
  band.conductor.ask({ kind: "try", trial });
  band.run(6);
  const again = band.due().slice(tried.length);
  expect(again.some(({ event }) => event.part === "upper")).toBe(true);
});

test("a grip is tried alone: one stroke of its own strings, and nobody else", () => {
  const band = rehearse();
  const bar = bars.find(({ slots }) => slots.length > 1);
  const slot = bar?.slots[1];
  if (!bar || !slot) throw new Error("no bar of two chords");
  const once = { kind: "once", from: bar.id, to: bar.id } as const;
  const edits = [{ kind: "grip", slot: slot.id, grip: "x-x-3-2-4-x" }] as const;
  const trial: Trial = { bars: once, lane: "upper", edits, slot: slot.id, heard: "lane" };
  band.conductor.ask({ kind: "try", trial });
  band.run(6);
  const heard = band.due();
  // Strings 4, 3 and 2 in standard tuning: F3, A3, Eb4.
  expect(heard.map(({ event }) => event.kind === "guitar" && event.pitch)).toEqual([53, 57, 63]);
  expect(heard.every(({ event }) => event.part === "upper")).toBe(true);
  expect(heard[0]?.sample).toBe(lead);
  expect(band.reports.at(-1)).toEqual({ kind: "stopped", why: "end" });
  band.conductor.ask({ kind: "try", trial: { ...trial, heard: "lanes" } });
  band.run(6);
  const both = band.due().slice(heard.length);
  expect(new Set(both.map(({ event }) => event.part))).toEqual(new Set(["upper", "lower"]));
  const after = both.map(({ sample }) => sample - (both[0]?.sample ?? 0));
  expect(Math.max(...after)).toBeLessThan(0.05 * rate);
});

test("a section that the form leaves out is played on its own, then round and round", () => {
  const last = board.sections.at(-1);
  const bar = last?.bars[0]?.id;
  if (!last || !bar) throw new Error("no section");
  const form = board.form.filter(({ section }) => section !== last.id);
  const band = rehearse(plain, { ...board, form });
  band.conductor.ask({ kind: "play", bar });
  band.run(2);
  expect(band.plan().bars.map((each) => each.bar)).toEqual(last.bars.map(({ id }) => id));
  expect(momentAt(band.plan(), band.now())?.index).toBe(0);
  band.conductor.ask({ kind: "board", fields: { title: "Another" } });
  band.run(0.5);
  expect(band.plan().bars[0]?.bar).toBe(bar);
  const loop = { kind: "section", section: last.id } as const;
  band.conductor.ask({ kind: "wishes", wishes: { ...plain, loop } });
  band.run(20);
  expect(momentAt(band.plan(), band.now())?.round).toBeGreaterThan(0);
  band.conductor.ask({ kind: "play", bar: barAt(0) });
  band.conductor.ask({ kind: "wishes", wishes: plain });
  band.run(1);
  expect(band.plan().bars[0]?.bar).toBe(barAt(0));
  expect(band.plan().bars.length).toBeGreaterThan(last.bars.length);
});

test("another swing moves the off-beats and leaves the bars where they are", () => {
  const swinging: Board = { ...board, feel: "swing" };
  const rides = (swing: number) => {
    const band = rehearse({ ...plain, swing: ticks(swing) }, swinging);
    band.conductor.ask({ kind: "play", bar: undefined });
    band.run(3);
    const isRide = ({ event }: Due) => event.kind === "drum" && event.drum === "ride";
    return band.due().filter(isRide).slice(0, 4);
  };
  const tick = (60 * rate) / board.tempo / 48;
  for (const swing of [24, 32, 36]) {
    const after = rides(swing).map(({ sample }) => sample - lead);
    expect(after).toEqual([0, 48, 48 + swing, 96].map((at) => Math.round(at * tick)));
  }
});
