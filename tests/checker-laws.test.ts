/**
 * Laws of the whole check over random passages: with strums, fills, phrases, loudness and capos in
 * both lanes, written into documents and read out of them.
 */
import type { Lane, LaneId } from "@halflap/board/board";
import { silenceId } from "@halflap/board/ids";
import { check } from "@halflap/checker/check";
import { type Finding, type RuleId, ruleIds } from "@halflap/checker/finding";
import { midiNote } from "@halflap/theory/units";
import fc from "fast-check";
import { expect, test } from "vitest";
import { boardOfCopy } from "./support/copies.ts";
import { mirrored, otherLane } from "./support/mirrored.ts";
import { copyOfPassage } from "./support/passages/passage.ts";
import { randomPassage } from "./support/passages/random-passages.ts";

const board = randomPassage.map((passage) => boardOfCopy(copyOfPassage(passage)));

/**
 * The rules that ask how low or high a note is in itself. Mud and roughness grow downward; the bass
 * has its zone, and in it a grip has to stay on its root when it is linked; a voice has its range.
 * All others compare notes with each other, or frets, strokes and places.
 */
const aboutHeight: readonly RuleId[] = ["R08", "R09", "R12", "R17", "R27"];

test("lanes swapped give the same findings with the lanes swapped", () => {
  fc.assert(
    fc.property(board, (original) => {
      expect(told(check(mirrored(original)), otherLane)).toEqual(
        told(check(original), (lane) => lane),
      );
    }),
  );
});

test("all strings an octave up change nothing but what is about height", () => {
  fc.assert(
    fc.property(board, (original) => {
      const { upper, lower } = original.lanes;
      const phrases = original.phrases.map((phrase) => ({
        ...phrase,
        melody: phrase.melody.map((note) => ({ ...note, pitch: midiNote(note.pitch + 12) })),
      }));
      const lanes = { upper: octaveUp(upper), lower: octaveUp(lower) };
      const bare = (findings: readonly Finding[], octaves: number) =>
        findings
          .filter(({ rule }) => !aboutHeight.includes(rule))
          .map(({ words: _, ...rest }) => ({
            ...rest,
            notes: rest.notes.map((note) => ({ ...note, pitch: note.pitch + 12 * octaves })),
          }));
      const raised = check({ ...original, phrases, lanes });
      expect(bare(raised, 0)).toEqual(bare(check(original), 1));
    }),
  );
});

test("a lane that lays out, or in which nothing is written, raises nothing", () => {
  fc.assert(
    fc.property(board, (original) => {
      const { upper } = original.lanes;
      const all = original.sections.flatMap(({ bars }) => bars.map(({ id }) => id));
      const resting: Lane = { ...upper, layOuts: new Set(all) };
      const empty: Lane = { ...upper, grips: new Map(), fills: new Map(), chosenFor: new Map() };
      for (const silent of [resting, empty]) {
        const found = check({ ...original, lanes: { ...original.lanes, upper: silent } });
        // A gap of the voice that nobody fills is nobody's: R25 names both.
        const about = found.filter(({ lanes, rule }) => lanes.includes("upper") && rule !== "R25");
        expect(about).toEqual([]);
      }
    }),
  );
});

test("a board without grips and fills raises nothing but what is about its form", () => {
  fc.assert(
    fc.property(board, fc.boolean(), (original, hasCountIn) => {
      const empty = (lane: Lane): Lane => {
        return { ...lane, grips: new Map(), fills: new Map(), chosenFor: new Map() };
      };
      const { upper, lower } = original.lanes;
      const lanes = { upper: empty(upper), lower: empty(lower) };
      const found = check({ ...original, countIn: hasCountIn ? 1 : 0, lanes });
      expect(found.filter(({ rule }) => rule !== "R34")).toEqual([]);
    }),
  );
});

test("silencing a rule changes no other finding, and its own only in being silenced", () => {
  const silence = fc.record({
    rule: fc.constantFrom(...ruleIds),
    from: fc.nat(3),
    count: fc.integer({ min: 1, max: 4 }),
  });
  fc.assert(
    fc.property(board, silence, (original, { rule, from, count }) => {
      const all = original.sections.flatMap(({ bars }) => bars.map(({ id }) => id));
      const bars = all.slice(from, from + count);
      const agreed = { id: silenceId("agreed"), rule, bars, reason: "we like it so" };
      const before = check(original);
      const after = check({ ...original, silences: [agreed] });
      const rest = (findings: readonly Finding[]) => findings.filter((each) => each.rule !== rule);
      expect(rest(after)).toEqual(rest(before));
      const own = (findings: readonly Finding[]) =>
        told(
          findings.filter((each) => each.rule === rule),
          (lane) => lane,
        );
      expect(own(after)).toEqual(own(before));
      for (const finding of after.filter((each) => each.rule === rule)) {
        const isCovered = finding.bars.every((bar) => bars.includes(bar));
        expect(finding.silenced).toBe(isCovered ? agreed.reason : undefined);
      }
    }),
  );
});

test("random passages make nearly every rule speak, so that the laws are about something", () => {
  const spoken = new Set<RuleId>();
  for (const passage of fc.sample(board, 300)) {
    for (const { rule } of check(passage)) spoken.add(rule);
  }
  const silent = ruleIds.filter((rule) => !spoken.has(rule));
  // These take more than chance: a forgotten capo, a grip for another chord, a soft shift along
  // wound strings, a fill that runs late by a hair. The form is in order.
  const rare: readonly RuleId[] = ["R14", "R26", "R31", "R34", "R36"];
  expect(silent.filter((rule) => !rare.includes(rule))).toEqual([]);
});

/**
 * What is said in each slot, by whom and with which notes. Whether equal sentences in a row are one
 * finding depends on the names in them, so each slot is looked at on its own.
 */
function told(findings: readonly Finding[], name: (lane: LaneId) => LaneId): readonly string[] {
  return findings
    .flatMap(({ rule, severity, isPraise, lanes, slots, notes }) =>
      slots.map((slot) => {
        const here = notes.filter((note) => note.slot === slot);
        const sounding = here.map(({ lane, pitch }) => `${name(lane)} ${pitch}`).sort();
        const who = lanes.map(name).sort();
        return [slot, rule, isPraise ? "praise" : severity, ...who, ...sounding].join(" ");
      }),
    )
    .sort();
}

function octaveUp(lane: Lane): Lane {
  const tuning = lane.setup.tuning.map((pitch) => midiNote(pitch + 12));
  return { ...lane, setup: { ...lane.setup, tuning } };
}
