/** How the registers lie to each other: R01 and R16 as if the whole bar were like the slot. */
import { reaches } from "@halflap/checker/thresholds";
import type { GripSound } from "../grips/grip-sound.ts";
import type { HeldGrip } from "../grips/held-grip.ts";
import type { Bench, PairJudge } from "./judge.ts";
import { eighths, stepsFor } from "./weights.ts";

/** The judges of the register for a kind of slot. */
export function registerJudges(bench: Bench): readonly PairJudge[] {
  return [overlap(bench), crossing(bench), distance(bench), octaves(bench)].flat();
}

function overlap({ kind, frame: { limits }, says }: Bench): readonly PairJudge[] {
  if (kind.isShelfFree) return [];
  const cost = (upper: GripSound, lower: GripSound) => {
    const share = overlapShare(upper.held, lower.held);
    if (reaches(share, limits.overlapFix)) return says.fix;
    return reaches(share, limits.overlapLook) ? says.look : 0;
  };
  return [{ rule: "R01", cause: "same register", cost, sees: bothEnds }];
}

/** Bars that overlap are R01's; which part is the low one is taken from the tune as it is. */
function crossing({ kind, frame: { limits }, high, says }: Bench): readonly PairJudge[] {
  if (kind.isCrossFree) return [];
  const isHighUpper = high === "upper";
  const cost = (upper: GripSound, lower: GripSound) => {
    const above = isHighUpper ? upper.held : lower.held;
    const below = isHighUpper ? lower.held : upper.held;
    if (below.highest <= above.lowest) return 0;
    const isShelf = !kind.isShelfFree && reaches(overlapShare(above, below), limits.overlapLook);
    if (isShelf) return 0;
    return below.mean > above.mean ? says.look : says.note;
  };
  return [{ rule: "R16", cause: "same register", cost }];
}

/** Mean pitches nearer than an octave and a half, or further apart than a sixth, where asked. */
const near = 18;
const far = 9;

function distance({ kind, weights }: Bench): readonly PairJudge[] {
  if ((weights.narrow === 0 && weights.wide === 0) || kind.isUnison) return [];
  const cost = ({ held: upper }: GripSound, { held: lower }: GripSound) => {
    const gap = Math.round(Math.abs(upper.mean - lower.mean) * eighths);
    return (
      stepsFor(weights.narrow, Math.max(0, near * eighths - gap)) +
      stepsFor(weights.wide, Math.max(0, gap - far * eighths))
    );
  };
  return [{ rule: undefined, cause: "same register", cost }];
}

/** What has to be so at both ends of every move that R15 counts. */
function octaves({ kind, weights }: Bench): readonly PairJudge[] {
  if (kind.isUnison || !kind.goesOn) return [];
  const weight = stepsFor(weights.octaves, eighths);
  const cost = ({ held: upper }: GripSound, { held: lower }: GripSound) => {
    const pairs =
      isOctave(upper.highest, lower.highest) +
      isOctave(upper.lowest, lower.lowest) +
      isOctave(upper.highest, lower.lowest) +
      isOctave(upper.lowest, lower.highest);
    return pairs * weight;
  };
  return [{ rule: undefined, cause: "octaves together", cost, sees: bothEndClasses }];
}

const octave = 12;
const pitchCount = 128;

function ends({ held: { lowest, highest } }: GripSound): number {
  return highest * pitchCount + lowest;
}

function endClasses({ held: { lowest, highest } }: GripSound): number {
  return (highest % octave) * octave + (lowest % octave);
}

const bothEnds = { upper: ends, lower: ends };
const bothEndClasses = { upper: endClasses, lower: endClasses };

function isOctave(one: number, other: number): number {
  return (one - other) % octave === 0 ? 1 : 0;
}

/** As R01 measures it. */
function overlapShare(one: HeldGrip, other: HeldGrip): number {
  const shared = Math.min(one.highest, other.highest) - Math.max(one.lowest, other.lowest);
  const narrower = Math.min(one.highest - one.lowest, other.highest - other.lowest);
  return Math.max(0, shared) / Math.max(1, narrower);
}
