/** A hit: what one rule says about one place, before the list is put in order. */
import type { LaneId } from "@halflap/board/board";
import type { MidiNote } from "@halflap/theory/units";
import type { FindingNote, RuleId, Severity } from "./finding.ts";
import type { Segment } from "./segments.ts";
import type { Tune } from "./tune.ts";

export type Hit = {
  readonly rule: RuleId;
  readonly severity: Severity;
  readonly lanes: readonly LaneId[];
  /** In chart order, all of one section; never empty. */
  readonly segments: readonly Segment[];
  readonly notes: readonly FindingNote[];
  readonly measured: number;
  readonly threshold: number;
  readonly words: string;
};

/** A rule about one slot: at most one hit a slot and set of lanes. */
export type SlotRule = (segment: Segment, tune: Tune) => readonly Hit[];

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
