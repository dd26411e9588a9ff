/** Whether the guitars crowd the voice: R27 as if all that is sung were like the slot. */
import type { LaneId } from "@halflap/board/board";
import { reaches } from "@halflap/checker/thresholds";
import type { GripSound } from "../grips/grip-sound.ts";
import type { VoiceLoad } from "../tune/voice-load.ts";
import type { Bench, LoneJudge, PairJudge } from "./judge.ts";
import { stepsFor } from "./weights.ts";

const cause = "under the voice";

/** The judge of both lanes under the voice. */
export function voiceJudges(bench: Bench): readonly PairJudge[] {
  const { voice } = bench.kind;
  const says = crowding(bench);
  if (voice === undefined || says === undefined) return [];
  const cost = (upper: GripSound, lower: GripSound) =>
    says(rate(upper, "upper", voice) + rate(lower, "lower", voice) + voice.fixed);
  const inRange = (sound: GripSound) => Number(isInRange(sound, voice.range));
  return [{ rule: "R27", cause, cost, sees: { upper: inRange, lower: inRange } }];
}

/** The judge of a lane that sounds alone under the voice. */
export function loneVoiceJudges(bench: Bench, lane: LaneId): readonly LoneJudge[] {
  const { voice } = bench.kind;
  const says = crowding(bench);
  if (voice === undefined || says === undefined) return [];
  const cost = (sound: GripSound) => says(rate(sound, lane, voice) + voice.fixed);
  return [{ rule: "R27", cause, cost }];
}

/** What is hard to hold while its own player sings. */
export function singingJudges({ kind, weights }: Bench, lane: LaneId): readonly LoneJudge[] {
  if (weights.sungEffort === 0 || !kind.singing.includes(lane)) return [];
  const cost = ({ held }: GripSound) => stepsFor(weights.sungEffort, held.effortEighths);
  return [{ rule: undefined, cause, cost }];
}

function crowding({
  kind,
  frame: { limits },
  says,
}: Bench): ((rate: number) => number) | undefined {
  if (kind.voice === undefined) return undefined;
  return (strokes) => {
    if (reaches(strokes, limits.maskFix)) return says.fix;
    return reaches(strokes, limits.maskLook) ? says.look : 0;
  };
}

function rate(sound: GripSound, lane: LaneId, { range, rates }: VoiceLoad): number {
  return isInRange(sound, range) ? rates[lane] : 0;
}

function isInRange({ held }: GripSound, { low, high }: VoiceLoad["range"]): boolean {
  return held.highest >= low && held.highest <= high;
}
