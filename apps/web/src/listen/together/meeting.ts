/** What the conductor is told of what is played together. */
import type { Loop } from "../order-of-play.ts";

/** What is played together, in this browser's samples. */
export type Meeting = {
  readonly tick: number;
  /** When the tune stands at that tick; may have passed, and is not rounded. */
  readonly sample: number;
  readonly counted: number;
  readonly tempoFactor: number;
  readonly loop: Loop | undefined;
};
