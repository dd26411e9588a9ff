/** A finding: what the checker flags, where, on which notes, how much, and in whose words. */
import type { BarId, LaneId, SlotId } from "@halflap/board/board";
import type { MidiNote } from "@halflap/theory/units";

/** From what blocks playing down to what is merely good to know. */
export const severities = ["stop", "fix", "look", "note"] as const;
export type Severity = (typeof severities)[number];

/** The rules of this cut; SPEC.md says what each measures. R11 is the special message of R10. */
export const ruleIds = [
  "R01",
  "R02",
  "R03",
  "R04",
  "R05",
  "R06",
  "R07",
  "R10",
  "R11",
  "R13",
] as const;
export type RuleId = (typeof ruleIds)[number];

export type FindingNote = {
  readonly lane: LaneId;
  readonly slot: SlotId;
  readonly pitch: MidiNote;
};

export type Finding = {
  /** Stable while the finding stands: rule, lane and first slot. */
  readonly id: string;
  readonly rule: RuleId;
  readonly severity: Severity;
  readonly lanes: readonly LaneId[];
  /** Every bar and slot it spans, in chart order; never empty. */
  readonly bars: readonly BarId[];
  readonly slots: readonly SlotId[];
  readonly notes: readonly FindingNote[];
  /** What was measured and the threshold it crossed, in the rule's own unit. */
  readonly measured: number;
  readonly threshold: number;
  /** A sentence a bandmate would say. */
  readonly words: string;
  /** The reason it was silenced, if it was. */
  readonly silenced: string | undefined;
};
