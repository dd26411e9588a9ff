/** What a grip costs by itself, whatever the other part plays. */
import type { LaneId } from "@halflap/board/board";
import type { GripSound } from "../grips/grip-sound.ts";
import { stepsPerSemitone } from "../solver/lattice.ts";
import type { Bench, LoneJudge } from "./judge.ts";
import { singingJudges } from "./pair-voice.ts";
import { stepsFor } from "./weights.ts";

/** The judges of a lane's grip, wherever it sounds. */
export function gripJudges(bench: Bench, lane: LaneId): readonly LoneJudge[] {
  const { kind, weights, says } = bench;
  const foreign = ({ faults }: GripSound) => says[faults.foreign ?? "nothing"];
  return [
    {
      rule: undefined,
      cause: "comfort",
      cost: ({ held }) => stepsFor(weights.comfort, held.effortEighths),
    },
    {
      rule: undefined,
      cause: "colour",
      cost: ({ odd }) => odd * weights.odd * stepsPerSemitone,
    },
    ...(kind.isPassing ? [] : [{ rule: "R13", cause: "colour", cost: foreign } as const]),
    { rule: "R14", cause: "colour", cost: ({ faults }) => says[faults.capo ?? "nothing"] },
    { rule: "R30", cause: "comfort", cost: ({ faults }) => says[faults.hand ?? "nothing"] },
    ...singingJudges(bench, lane),
  ];
}
