/** How far a recording is turned down to fit into a file. */
import type { Recording } from "./offline.ts";

/** -1 dBFS. A louder recording is turned down as a whole: nothing is bent, nothing clipped. */
const peakMax = 10 ** (-1 / 20);

/** A factor for every sample; 1 where the recording is no louder than -1 dBFS. */
export function fileGain({ left, right }: Pick<Recording, "left" | "right">): number {
  return peakMax / Math.max(peakOf(left), peakOf(right), peakMax);
}

function peakOf(side: Float32Array): number {
  let peak = 0;
  for (const sample of side) peak = Math.max(peak, Math.abs(sample));
  return peak;
}
