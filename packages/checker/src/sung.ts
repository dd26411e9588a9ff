/** Where the voice sounds in a passage, and how long something else lies under it. */

import { remembered } from "@halflap/board/remembered";
import { type Ticks, ticks } from "@halflap/theory/units";
import type { Sung } from "@halflap/timeline/timeline";
import { joined, meeting, type Stretch } from "./figures.ts";

/** The stretches in which somebody sings, by start, those that overlap or touch joined. */
export const voicedStretches: (sung: readonly Sung[]) => readonly Stretch[] = remembered(joined);

/** The parts of a stretch that lie under the voice, by start. */
export function underVoice(stretch: Stretch, sung: readonly Sung[]): readonly Stretch[] {
  return voicedStretches(sung)
    .filter(({ start, end }) => start < stretch.end && end > stretch.start)
    .flatMap((voiced) => meeting(stretch, voiced) ?? []);
}

/** How long stretches last together, in ticks. */
export function totalLength(stretches: readonly Stretch[]): Ticks {
  return ticks(stretches.reduce((sum, { start, end }) => sum + end - start, 0));
}
