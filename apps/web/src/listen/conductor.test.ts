/** Everything is ordered once, ahead of time, and edits are heard at once. */
import { editedBoard } from "@halflap/board/edited-board";
import { makeEngine } from "@halflap/sound/engine";
import { performanceOf, wholeTune } from "@halflap/sound/performance";
import type { PlayEvent } from "@halflap/sound/play-event";
import { timelineOf } from "@halflap/timeline/passages";
import { describe, expect, test } from "vitest";
import { Conductor } from "./conductor.ts";
import { momentAt } from "./play-clock.ts";
import {
  barAt,
  bars,
  block,
  board,
  type Due,
  lead,
  margin,
  plain,
  rate,
  rehearse,
} from "./test-support/rehearsal.ts";

const starts = (due: readonly Due[]) =>
  due.map(({ sample, event }) => `${sample} ${event.part} ${JSON.stringify(pitchOf(event))}`);
const pitchOf = (event: PlayEvent) =>
  event.kind === "guitar" ? [event.string, event.pitch] : event.kind;

test("the whole tune: each event of the performance once, none too late", () => {
  const band = rehearse();
  band.conductor.ask({ kind: "play", bar: undefined });
  band.run(150);
  const timeline = timelineOf(board);
  const whole = performanceOf(board, timeline, { ...wholeTune(board, timeline), countIn: 0 });
  const origin = lead;
  const expected = whole.events.map((event) => {
    return { sample: origin + Math.round(event.start * rate), generation: 1, event };
  });
  expect(starts(band.due()).sort()).toEqual(starts(expected).sort());
  expect(band.late).toEqual([]);
  expect(band.reports.at(-1)).toEqual({ kind: "stopped", why: "end" });
});

test("a bar goes round a hundred times, each round to the sample", () => {
  const loop = { kind: "bars", from: barAt(1), to: barAt(1) } as const;
  const band = rehearse({ ...plain, loop, tempoFactor: 1.5 });
  band.conductor.ask({ kind: "play", bar: barAt(1) });
  const round = (4 * 60 * rate) / (board.tempo * 1.5);
  band.run((100 * round) / rate);
  const firsts = band.due().filter(({ event }) => event.kind === "click" && event.isFirst);
  expect(firsts.length).toBeGreaterThanOrEqual(100);
  for (const [index, { sample }] of firsts.entries()) {
    expect(sample).toBe(Math.round(lead + index * round));
  }
  expect(band.late).toEqual([]);
});

test("counting in comes first, a bar of clicks, then the bar that was asked for", () => {
  const band = rehearse({ ...plain, countsIn: true }, { ...board, countIn: 1 });
  band.conductor.ask({ kind: "play", bar: barAt(6) });
  band.run(4);
  const counts = band.due().filter(({ event }) => event.part === "count-in");
  const beat = (60 * rate) / board.tempo;
  expect(counts.map(({ sample }) => sample)).toEqual(
    [0, 1, 2, 3].map((index) => Math.round(lead + index * beat)),
  );
  const others = band.due().filter(({ event }) => event.part !== "count-in");
  expect(others[0]?.sample).toBe(Math.round(lead + 4 * beat));
  expect(momentAt(band.plan(), band.plan().anchor.sample)?.index).toBe(6);
});

describe("while it plays", () => {
  const bar0 = () => barAt(0);

  test("an edit is heard from the next moment on, and nothing before it changes", () => {
    const band = rehearse();
    band.conductor.ask({ kind: "play", bar: undefined });
    band.run(3);
    const before = band.due();
    const at = band.now();
    const rests = bars.map(({ id }) => ({ kind: "lay-out", bar: id, rest: true }) as const);
    band.conductor.ask({ kind: "board", fields: editedBoard(board, "upper", rests) });
    band.run(6);
    const cut = at + lead;
    const upper = band.due().filter(({ event }) => event.part === "upper");
    expect(upper.length).toBeGreaterThan(0);
    expect(upper.filter(({ sample }) => sample >= cut)).toEqual([]);
    const early = (due: readonly Due[]) => starts(due.filter(({ sample }) => sample < cut));
    expect(early(band.due())).toEqual(early(before));
    // The other lane and the band go on where they were.
    const rest = (due: readonly Due[]) =>
      starts(due.filter(({ sample, event }) => sample >= cut && event.part !== "upper"));
    const known = rest(before);
    expect(known.length).toBeGreaterThan(5);
    expect(rest(band.due()).slice(0, known.length)).toEqual(known);
    expect(band.late).toEqual([]);
  });

  test("edits in a row never move the beat", () => {
    const band = rehearse();
    band.conductor.ask({ kind: "play", bar: undefined });
    for (let edit = 0; edit < 60; edit += 1) {
      band.run(0.2);
      band.conductor.ask({ kind: "board", fields: { ...board, title: `Edit ${edit}` } });
    }
    const clicks = band.due().filter(({ event }) => event.part === "click");
    const beat = (60 * rate) / board.tempo;
    for (const [index, { sample }] of clicks.entries()) {
      expect(Math.abs(sample - (lead + index * beat))).toBeLessThanOrEqual(1.5);
    }
    expect(clicks.length).toBeGreaterThan(20);
  });

  test("another tempo keeps the place", () => {
    const band = rehearse();
    band.conductor.ask({ kind: "play", bar: undefined });
    band.run(7.3);
    const cut = band.now() + lead;
    const before = momentAt(band.plan(), cut);
    band.conductor.ask({ kind: "wishes", wishes: { ...plain, tempoFactor: 0.5 } });
    band.run(1);
    expect(momentAt(band.plan(), cut)?.index).toBe(before?.index);
    expect(momentAt(band.plan(), cut)?.into).toBeCloseTo(before?.into ?? 0, 6);
    const quarter = (60 * rate) / board.tempo / 0.5;
    const later = momentAt(band.plan(), cut + quarter * 0.25);
    expect((later?.into ?? 0) - (before?.into ?? 0)).toBeCloseTo(12, 1);
  });

  test("a loop elsewhere is gone to when the bar is over; without it the tune goes on", () => {
    const band = rehearse();
    band.conductor.ask({ kind: "play", bar: bar0() });
    band.run(1);
    const beat = (60 * rate) / board.tempo;
    const loop = { kind: "bars", from: barAt(8), to: barAt(9) } as const;
    band.conductor.ask({ kind: "wishes", wishes: { ...plain, loop } });
    band.run(0.5);
    const { anchor } = band.plan();
    expect(anchor.sample).toBe(Math.round(lead + 4 * beat));
    expect(momentAt(band.plan(), anchor.sample)?.index).toBe(8);
    band.run(16);
    expect(momentAt(band.plan(), band.now())?.round).toBeGreaterThan(1);
    const clicks = band.due().filter(({ event }) => event.part === "click");
    for (const [index, { sample }] of clicks.entries()) {
      expect(Math.abs(sample - (lead + index * beat))).toBeLessThanOrEqual(1.5);
    }
    band.conductor.ask({ kind: "wishes", wishes: plain });
    band.run(6);
    expect(momentAt(band.plan(), band.now())?.index).toBeGreaterThan(9);
    expect(band.late).toEqual([]);
  });

  test("wherever it stands, another loop strikes no downbeat twice", () => {
    const wishes = { ...plain, tempoFactor: 1.13 };
    const barSeconds = (4 * 60) / (board.tempo * wishes.tempoFactor);
    for (let from = 0; from < 12; from += 1) {
      const band = rehearse(wishes);
      band.conductor.ask({ kind: "play", bar: barAt(from) });
      band.run(0.8 * barSeconds);
      const loop = { kind: "bars", from: barAt(14), to: barAt(14) } as const;
      band.conductor.ask({ kind: "wishes", wishes: { ...wishes, loop } });
      band.run(barSeconds);
      const clicks = band.due().filter(({ event }) => event.part === "click");
      const at = clicks.map(({ sample }) => sample - lead);
      const beat = (barSeconds / 4) * rate;
      expect(at.slice(0, 6)).toEqual([0, 1, 2, 3, 4, 5].map((n) => expect.closeTo(n * beat, -1)));
    }
  });

  test("a bar taken out before leaves the sounding bar where it is", () => {
    const band = rehearse();
    band.conductor.ask({ kind: "play", bar: barAt(5) });
    band.run(1);
    const [intro, ...others] = board.sections;
    if (!intro) throw new Error("no intro");
    const shorter = { ...board, sections: [{ ...intro, bars: intro.bars.slice(1) }, ...others] };
    band.conductor.ask({ kind: "board", fields: shorter });
    band.run(0.3);
    const moment = momentAt(band.plan(), band.now() + margin);
    expect(band.plan().bars[moment?.index ?? 0]?.bar).toBe(barAt(5));
  });

  test("bars or a section that go round and are taken away leave the tune going on", () => {
    const [intro, verse] = board.sections;
    if (!intro || !verse) throw new Error("no two sections");
    const to = verse.bars[1]?.id ?? barAt(0);
    const loops = [
      { kind: "section", section: verse.id },
      { kind: "bars", from: verse.bars[0]?.id ?? to, to },
    ] as const;
    for (const loop of loops) {
      const band = rehearse({ ...plain, loop });
      band.conductor.ask({ kind: "play", bar: undefined });
      band.run(1);
      expect(band.plan().stretch.loops).toBe(true);
      const sections = board.sections.filter(({ id }) => id !== verse.id);
      const form = board.form.filter(({ section }) => section !== verse.id);
      band.conductor.ask({ kind: "board", fields: { sections, form } });
      band.run(1);
      expect(band.reports.at(-1)?.kind).toBe("plan");
      expect(band.plan().stretch).toMatchObject({ first: 0, loops: false });
      band.conductor.ask({ kind: "play", bar: barAt(0) });
      band.run(1);
      expect(momentAt(band.plan(), band.now())?.index).toBe(0);
    }
  });

  test("stop is final; play begins anew; nothing to play is said", () => {
    const band = rehearse();
    band.conductor.ask({ kind: "play", bar: undefined });
    band.run(1);
    band.conductor.ask({ kind: "stop" });
    const stopped = band.due().length;
    band.run(3);
    expect(band.due()).toHaveLength(stopped);
    expect(band.reports.at(-1)).toEqual({ kind: "stopped", why: "asked" });
    band.conductor.ask({ kind: "play", bar: barAt(2) });
    band.run(0.5);
    expect(band.due().length).toBeGreaterThan(stopped);
    band.conductor.ask({ kind: "board", fields: { ...board, form: [] } });
    band.run(0.5);
    expect(band.reports.at(-1)).toEqual({ kind: "stopped", why: "nothing" });
  });
});

test("on the real player an edit leaves no gap", () => {
  const engine = makeEngine(rate);
  const conductor = new Conductor(
    rate,
    (order) => {
      if (order.kind === "events") engine.schedule(order.events, order);
      else if (order.kind === "replace") engine.replaceFrom(order.from, order.generation);
      else if (order.kind === "stop") engine.stop();
    },
    () => {},
  );
  conductor.ask({ kind: "board", fields: board });
  conductor.ask({ kind: "wishes", wishes: plain });
  conductor.ask({ kind: "play", bar: barAt(12) });
  const [left, right] = [new Float32Array(block), new Float32Array(block)];
  const levels: number[] = [];
  for (let turn = 0; turn < 300; turn += 1) {
    engine.render(left, right);
    conductor.hear(engine.position());
    if (turn === 150) conductor.ask({ kind: "board", fields: { title: "Another" } });
    levels.push(Math.sqrt(left.reduce((sum, x) => sum + x * x, 0) / block));
  }
  const playing = levels.slice(10);
  expect(Math.max(...playing)).toBeGreaterThan(0.05);
  expect(Math.min(...playing.slice(140, 160))).toBeGreaterThan(0.003);
});
