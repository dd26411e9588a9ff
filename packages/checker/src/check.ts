/** The check: every finding of a board, in the order in which its players would read them. */
import type { Board, SectionId } from "@halflap/board/board";
import { type Mode, makeKeeper, sameItems } from "@halflap/timeline/keeper";
import { makeTimeline } from "@halflap/timeline/passages";
import type { Finding } from "./finding.ts";
import type { Hit } from "./hit.ts";
import { boardRules, passageRules, slotRules } from "./rules/catalogue.ts";
import type { Segment } from "./segments.ts";
import { settle } from "./settle.ts";
import { settleSection } from "./settle-section.ts";
import {
  type CheckedPassage,
  type Frame,
  makePreparation,
  nextRoots,
  type PreparedBoard,
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
  const settled = makeKeeper<readonly Finding[]>();
  const sections = makeKeeper<readonly Finding[]>();
  const boardHits = rememberBoardHits();
  let last: readonly Finding[] = [];
  return (board, mode = "keep") => {
    const shared = sharingWith(last);
    const prepared = prepare(board, timelineOf(board, mode), mode);
    const { tune, frame, passages } = prepared;
    const whole = boardHits(prepared, board, mode);
    const bySection = new Map<SectionId, (readonly Finding[])[]>();
    for (const passage of passages) {
      const inSlots = slotHits(passage, tune, frame);
      const inPassage = passageHits(passage, tune, frame);
      const ofBoard = whole.get(passage) ?? [];
      const from = [passage, board.silences, inPassage, inSlots, ...ofBoard];
      const findings = settled.keep(passage.passage.id, from, () =>
        shared(settle(board.silences, passage, [...inPassage, ...inSlots, ...ofBoard])),
      );
      const { id } = passage.passage.section;
      bySection.set(id, [...(bySection.get(id) ?? []), findings]);
    }
    const findings = board.sections.flatMap((section) => {
      const inSection = bySection.get(section.id) ?? [];
      return sections.keep(section.id, [section, ...inSection], () =>
        shared(settleSection(section, inSection)),
      );
    });
    for (const keeper of [settled, sections]) keeper.turn(mode);
    if (mode === "keep") last = findings;
    return findings;
  };
}

/** The hits about the whole board by passage; those that say the same are the same objects. */
function rememberBoardHits() {
  let last: readonly Hit[] = [];
  return (prepared: PreparedBoard, board: Board, mode: Mode) => {
    const found = boardRules
      .flatMap((rule) => rule(prepared, board))
      .map((hit) => last.find((before) => isSameHit(before, hit)) ?? hit);
    if (mode === "keep") last = found;
    const hits = new Map<CheckedPassage, Hit[]>();
    if (found.length === 0) return hits;
    const passageOf = new Map<Segment, CheckedPassage>();
    for (const passage of prepared.passages) {
      for (const segment of passage.segments) passageOf.set(segment, passage);
    }
    for (const hit of found) {
      const passage = hit.segments[0] && passageOf.get(hit.segments[0]);
      if (passage === undefined) continue;
      hits.set(passage, [...(hits.get(passage) ?? []), hit]);
    }
    return hits;
  };
}

function isSameHit(a: Hit, b: Hit): boolean {
  return (
    a.rule === b.rule &&
    a.severity === b.severity &&
    a.words === b.words &&
    a.measured === b.measured &&
    a.threshold === b.threshold &&
    a.unit === b.unit &&
    a.span?.start === b.span?.start &&
    a.span?.end === b.span?.end &&
    sameItems(a.lanes, b.lanes) &&
    sameItems(a.segments, b.segments) &&
    sameFields(a.notes, b.notes)
  );
}

/** Gives back findings, each as the object it was last time where it says the same. */
function sharingWith(last: readonly Finding[]) {
  let known: ReadonlyMap<string, Finding> | undefined;
  return (findings: readonly Finding[]): readonly Finding[] => {
    known ??= new Map(last.map((finding) => [finding.id, finding]));
    const before = known;
    return findings.map((finding) => {
      const same = before.get(finding.id);
      return same !== undefined && isSame(same, finding) ? same : finding;
    });
  };
}

type Remembered = { readonly frame: Frame; readonly hits: readonly Hit[] };

type OfSlot = Remembered & {
  readonly ahead: readonly Segment[];
  /** Whether it looked for another root and came to the end of all that may follow. */
  readonly isInVain: boolean;
};

type OfSlots = Remembered & {
  readonly slots: readonly OfSlot[];
  /** So many slots at the start look at nothing past the passage's end. */
  readonly settled: number;
};

/** A passage that is the same is asked again at its end only, where it looks at what follows. */
function rememberSlots() {
  const ask = rememberSlot();
  const known = new WeakMap<CheckedPassage, OfSlots>();
  return (passage: CheckedPassage, tune: Tune, frame: Frame): readonly Hit[] => {
    const { segments } = passage;
    const before = known.get(passage);
    const last = before?.frame === frame ? before : undefined;
    const start = last?.slots.slice(0, last.settled) ?? [];
    const end = segments.slice(start.length).map((segment) => ask(segment, tune, frame));
    if (last !== undefined && sameItems(last.slots.slice(start.length), end)) return last.hits;
    const slots = [...start, ...end];
    const places = new Map(segments.map((segment, place) => [segment, place]));
    // What lies before a slot was come to past the end, by way of whatever follows.
    const isLater = (next: Segment, place: number) => (places.get(next) ?? -1) > place;
    const onward = slots.findIndex(
      ({ ahead, isInVain }, place) => isInVain || !ahead.every((next) => isLater(next, place)),
    );
    const settled = onward < 0 ? slots.length : onward;
    const hits = slots.flatMap((slot) => slot.hits);
    known.set(passage, { frame, slots, settled, hits });
    return hits;
  };
}

function rememberSlot() {
  const known = new WeakMap<Segment, OfSlot>();
  return (segment: Segment, tune: Tune, frame: Frame): OfSlot => {
    const chord = soundingChord(segment);
    const roots = chord && nextRoots(tune, segment, chord);
    const ahead = [...tune.after(segment), ...(roots ?? []).map((next) => next.segment)];
    const last = known.get(segment);
    if (last !== undefined && last.frame === frame && sameItems(last.ahead, ahead)) return last;
    const hits = slotRules.flatMap((rule) => rule(segment, tune));
    const made = { frame, ahead, isInVain: roots?.length === 0, hits };
    known.set(segment, made);
    return made;
  };
}

function rememberPassages() {
  const known = new WeakMap<CheckedPassage, Remembered>();
  return (passage: CheckedPassage, tune: Tune, frame: Frame): readonly Hit[] => {
    const last = known.get(passage);
    if (last !== undefined && last.frame === frame) return last.hits;
    const hits = passageRules.flatMap((rule) => rule(passage, tune));
    known.set(passage, { frame, hits });
    return hits;
  };
}

function isSame(a: Finding, b: Finding): boolean {
  if (a === b) return true;
  return (
    a.severity === b.severity &&
    a.words === b.words &&
    a.measured === b.measured &&
    a.threshold === b.threshold &&
    a.unit === b.unit &&
    a.silenced === b.silenced &&
    a.isPraise === b.isPraise &&
    sameItems(a.slots, b.slots) &&
    sameItems(a.bars, b.bars) &&
    sameFields(a.spans, b.spans) &&
    sameFields(a.notes, b.notes)
  );
}

/** Whether two lists hold objects with the same values in the same order. */
function sameFields(a: readonly object[], b: readonly object[]): boolean {
  return (
    a.length === b.length &&
    a.every((item, index) => sameItems(Object.values(item), Object.values(b[index] ?? {})))
  );
}
