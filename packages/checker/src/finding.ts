/** A finding: what the checker flags, where, on which notes, how much, and in whose words. */
import type { BarId, LaneId, SlotId } from "@halflap/board/board";
import type { MidiNote, Ticks } from "@halflap/theory/units";

/** From what blocks playing down to what is merely good to know. */
export const severities = ["stop", "fix", "look", "note"] as const;
export type Severity = (typeof severities)[number];

/** Every rule; SPEC.md says what each measures. R11 is the special message of R10. */
export const ruleIds = [
  "R01",
  "R02",
  "R03",
  "R04",
  "R05",
  "R06",
  "R07",
  "R08",
  "R09",
  "R10",
  "R11",
  "R12",
  "R13",
  "R14",
  "R15",
  "R16",
  "R17",
  "R18",
  "R19",
  "R20",
  "R21",
  "R22",
  "R23",
  "R24",
  "R25",
  "R26",
  "R27",
  "R28",
  "R29",
  "R30",
  "R31",
  "R32",
  "R33",
  "R34",
  "R36",
] as const;
export type RuleId = (typeof ruleIds)[number];

/** What a finding can be measured in; "" for a bare figure. */
export type MeasureUnit =
  | ("" | "share" | "beats" | "moves" | "gaps" | "steps" | "strokes" | "of 16 steps")
  | ("notes" | "semitones" | "strings" | "fingers" | "frets" | "mm" | "ms" | "m/s")
  | ("strokes a quarter note" | "grip changes a bar" | "arm cycles a second")
  | ("times the median of the tune" | "1 for pp to 6 for ff");

export type FindingNote = {
  readonly lane: LaneId;
  readonly slot: SlotId;
  readonly pitch: MidiNote;
};

/** Where a finding is heard: a stretch of one bar, in ticks from its start. */
export type FindingSpan = { readonly bar: BarId; readonly start: Ticks; readonly end: Ticks };

export type Finding = {
  /** Stable while the finding stands: rule, lanes, first slot, and the place in it where needed. */
  readonly id: string;
  readonly rule: RuleId;
  readonly severity: Severity;
  /** Good news: the parts lock here. Always a note. */
  readonly isPraise: boolean;
  readonly lanes: readonly LaneId[];
  /** Every bar and slot it spans, in chart order; never empty. */
  readonly bars: readonly BarId[];
  readonly slots: readonly SlotId[];
  /** One for each bar, in the same order. */
  readonly spans: readonly FindingSpan[];
  readonly notes: readonly FindingNote[];
  /** What was measured and the threshold it crossed, both in one unit. */
  readonly measured: number;
  readonly threshold: number;
  readonly unit: MeasureUnit;
  /** A sentence a bandmate would say. */
  readonly words: string;
  /** The reason it was silenced, if it was. */
  readonly silenced: string | undefined;
};
