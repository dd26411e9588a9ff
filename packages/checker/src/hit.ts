/** A hit: what one rule says about one place, before the list is put in order. */
import type { Board, LaneId } from "@halflap/board/board";
import type { MidiNote, Ticks } from "@halflap/theory/units";
import type { FindingNote, MeasureUnit, RuleId, Severity } from "./finding.ts";
import type { Segment } from "./segments.ts";
import type { CheckedPassage, PreparedBoard, Tune } from "./tune.ts";

export type Hit = {
  readonly rule: RuleId;
  readonly severity: Severity;
  readonly isPraise?: boolean;
  readonly lanes: readonly LaneId[];
  /** In chart order, all of one passage; never empty. */
  readonly segments: readonly Segment[];
  /** Where it is heard, from the start of the passage; its segments from end to end if missing. */
  readonly span?: { readonly start: Ticks; readonly end: Ticks };
  readonly notes: readonly FindingNote[];
  readonly measured: number;
  readonly threshold: number;
  /** Where it is not the usual one of the rule. */
  readonly unit?: MeasureUnit | undefined;
  readonly words: string;
};

/**
 * A rule about one slot: at most one hit a slot and set of lanes. It may look at the segment, at
 * the tune's frame and at what comes `after`, and at nothing else: its answer is kept until one of
 * these changes.
 */
export type SlotRule = (segment: Segment, tune: Tune) => readonly Hit[];

/**
 * A rule about runs of bars, rhythm, fills or moves. It may look at the passage, the first bars
 * that follow it, and the tune's frame: its answer is kept until one of these changes. Hits of one
 * passage with one rule and set of lanes must start in different places.
 */
export type PassageRule = (passage: CheckedPassage, tune: Tune) => readonly Hit[];

/** A rule about the whole board, asked after every change: it must be quick. */
export type BoardRule = (prepared: PreparedBoard, board: Board) => readonly Hit[];

/** The sounding notes of a lane that pass a test, as a finding lists them. */
export function notesOf(
  segment: Segment,
  lane: LaneId,
  isMeant: (pitch: MidiNote) => boolean = () => true,
): readonly FindingNote[] {
  return (segment[lane] ?? [])
    .filter(isMeant)
    .map((pitch) => ({ lane, slot: segment.slot.id, pitch }));
}

/** The notes of both lanes that pass a test, upper lane first. */
export function notesOfBoth(
  segment: Segment,
  isMeant?: (pitch: MidiNote) => boolean,
): readonly FindingNote[] {
  return [...notesOf(segment, "upper", isMeant), ...notesOf(segment, "lower", isMeant)];
}
