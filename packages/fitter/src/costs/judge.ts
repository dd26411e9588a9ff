/** A judge: what one rule, or one taste, asks of the grips that sound in a slot. */
import type { LaneId } from "@halflap/board/board";
import type { RuleId, Severity } from "@halflap/checker/finding";
import type { Frame } from "@halflap/checker/tune";
import type { GripSound } from "../grips/grip-sound.ts";
import type { SlotKind } from "../tune/slot-kinds.ts";
import { type CauseName, findingSteps, type Weights } from "./weights.ts";

/** What decides about all slots of a tune. */
export type Taste = {
  readonly frame: Frame;
  readonly weights: Weights;
  /** The lane that lies high. */
  readonly high: LaneId;
};

/** What a judge may look at beside the grips. */
export type Bench = Taste & {
  readonly kind: SlotKind;
  /** What a finding costs, in steps; nothing costs nothing. */
  readonly says: Readonly<Record<Severity | "nothing", number>>;
};

/** Of both grips; in whole steps, 0 or more, each time the slot is played. */
export type PairJudge = {
  readonly rule: RuleId | undefined;
  readonly cause: CauseName;
  readonly cost: (upper: GripSound, lower: GripSound) => number;
  /**
   * What it looks at in each grip as one number, where many have the same: it judges them alike.
   */
  readonly sees?: Readonly<Record<LaneId, (sound: GripSound) => number>>;
};

/** Of one grip. */
export type LoneJudge = {
  readonly rule: RuleId | undefined;
  readonly cause: CauseName;
  readonly cost: (sound: GripSound) => number;
};

/** The bench for a kind of slot. */
export function benchFor(kind: SlotKind, { frame, weights, high }: Taste): Bench {
  const says = {
    stop: findingSteps(weights, "stop"),
    fix: findingSteps(weights, "fix"),
    look: findingSteps(weights, "look"),
    note: findingSteps(weights, "note"),
    nothing: 0,
  };
  return { kind, frame, weights, high, says };
}
