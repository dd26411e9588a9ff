/** What the findings of each rule are measured in. */
import type { RuleId } from "./finding.ts";
import type { LimitName, limitTable } from "./thresholds.ts";

/** A limit's unit, or what is counted where no limit is; "" for a bare figure. */
export type MeasureUnit = (typeof limitTable)[LimitName]["unit"] | "strings" | "";

/** By rule, for every hit that names no other: two limits of a rule may have the same value. */
export const usualUnits: Readonly<Record<RuleId, MeasureUnit>> = {
  R01: "share",
  R02: "share",
  R03: "share",
  R04: "notes",
  R05: "notes",
  R06: "notes",
  R07: "notes",
  R08: "semitones",
  R09: "notes",
  R10: "semitones",
  R11: "semitones",
  R12: "times the median of the tune",
  R13: "notes",
  R14: "notes",
  R15: "moves",
  R16: "share",
  R17: "semitones",
  R18: "share",
  R19: "share",
  R20: "ms",
  R21: "of 16 steps",
  R22: "arm cycles a second",
  R23: "beats",
  R24: "beats",
  R25: "gaps",
  R26: "beats",
  R27: "strokes a quarter note",
  R28: "strokes a quarter note",
  R29: "share",
  R30: "mm",
  R31: "frets",
  R32: "strings",
  R33: "steps",
  R34: "",
  R36: "notes",
};
