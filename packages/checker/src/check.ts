/** The check: every finding of a board, in the order in which its players would read them. */
import type { Board } from "@halflap/board/board";
import { type Mode, makeTimeline } from "@halflap/timeline/passages";
import type { Finding } from "./finding.ts";
import type { Hit } from "./hit.ts";
import { boardRules, passageRules, slotRules } from "./rules/catalogue.ts";
import type { Segment } from "./segments.ts";
import { settle } from "./settle.ts";
import {
  type CheckedBar,
  type CheckedPassage,
  type Frame,
  makePreparation,
  nextRoots,
  soundingChord,
  type Tune,
} from "./tune.ts";

/** Checks boards one after another; one that is only tried leaves no trace. */
export type Checker = (board: Board, mode?: Mode) => readonly Finding[];

/** All findings of one board by chart position, then severity, then rule. */
export function check(board: Board): readonly Finding[] {
  return makeChecker()(board);
}

/**
 * A checker that remembers: after an edit it asks its rules only where they could see the change,
 * and its answer is always that of `check`. A finding that says the same as last time is the same
 * object, so that a page repaints only what is new. Silenced findings stay in the list.
 */
export function makeChecker(): Checker {
  const timelineOf = makeTimeline();
  const prepare = makePreparation();
  const slotHits = rememberSlots();
  const passageHits = rememberPassages();
  let last: ReadonlyMap<string, Finding> = new Map();
  return (board, mode = "keep") => {
    const prepared = prepare(board, timelineOf(board, mode), mode);
    const { tune, frame, passages } = prepared;
    const hits = passages.flatMap((passage) => [
      ...passageHits(passage, tune, frame),
      ...passage.segments.flatMap((segment) => slotHits(segment, tune, frame)),
    ]);
    const whole = boardRules.flatMap((rule) => rule(prepared, board));
    const findings = settle(board, passages, [...hits, ...whole]).map((finding) => {
      const before = last.get(finding.id);
      return before !== undefined && isSame(before, finding) ? before : finding;
    });
    if (mode === "keep") last = new Map(findings.map((finding) => [finding.id, finding]));
    return findings;
  };
}

type Remembered = {
  readonly frame: Frame;
  readonly ahead: readonly (Segment | CheckedBar)[];
  readonly hits: readonly Hit[];
};

function rememberSlots() {
  const known = new WeakMap<Segment, Remembered>();
  return (segment: Segment, tune: Tune, frame: Frame): readonly Hit[] => {
    const chord = soundingChord(segment);
    const ahead = [
      ...tune.after(segment),
      ...(chord === undefined ? [] : nextRoots(tune, segment, chord)).map((next) => next.segment),
    ];
    const last = known.get(segment);
    if (last !== undefined && last.frame === frame && sameItems(last.ahead, ahead))
      return last.hits;
    const hits = slotRules.flatMap((rule) => rule(segment, tune));
    known.set(segment, { frame, ahead, hits });
    return hits;
  };
}

function rememberPassages() {
  const known = new WeakMap<CheckedPassage, Remembered>();
  return (passage: CheckedPassage, tune: Tune, frame: Frame): readonly Hit[] => {
    const last = known.get(passage);
    if (last !== undefined && last.frame === frame) return last.hits;
    const hits = passageRules.flatMap((rule) => rule(passage, tune));
    known.set(passage, { frame, ahead: [], hits });
    return hits;
  };
}

function isSame(a: Finding, b: Finding): boolean {
  return (
    a.severity === b.severity &&
    a.words === b.words &&
    a.measured === b.measured &&
    a.threshold === b.threshold &&
    a.silenced === b.silenced &&
    a.isPraise === b.isPraise &&
    sameItems(a.slots, b.slots) &&
    sameItems(a.bars, b.bars) &&
    sameFields(a.spans, b.spans) &&
    sameFields(a.notes, b.notes)
  );
}

function sameItems(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((item, index) => item === b[index]);
}

/** Whether two lists hold objects with the same values in the same order. */
function sameFields(a: readonly object[], b: readonly object[]): boolean {
  return (
    a.length === b.length &&
    a.every((item, index) => sameItems(Object.values(item), Object.values(b[index] ?? {})))
  );
}
